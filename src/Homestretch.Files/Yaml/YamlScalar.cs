namespace Homestretch.Files.Yaml;

/// <summary>A single value, always kept as the text that was written, so that 18:30 stays 18:30 and 2026-02-30 can be named in a message.</summary>
/// <param name="Line">Line, from 1.</param>
/// <param name="Value">The text, without surrounding spaces.</param>
/// <param name="IsPlain">Written without quotation marks.</param>
internal sealed record YamlScalar(int Line, string Value, bool IsPlain) : YamlNode(Line)
{
    /// <inheritdoc/>
    public override string Kind => "a single value";

    /// <summary>Nothing was written, or one of YAML's words for nothing.</summary>
    public bool IsEmpty => Value.Length == 0 || (IsPlain && Value is "~" or "null" or "Null" or "NULL");
}
