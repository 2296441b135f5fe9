namespace Homestretch.Files.Yaml;

/// <summary>A list.</summary>
/// <param name="Line">Line of its first entry.</param>
/// <param name="Items">The entries.</param>
internal sealed record YamlList(int Line, IReadOnlyList<YamlNode> Items) : YamlNode(Line)
{
    /// <inheritdoc/>
    public override string Kind => "a list";
}
