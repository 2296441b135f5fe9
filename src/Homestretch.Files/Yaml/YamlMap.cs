namespace Homestretch.Files.Yaml;

/// <summary>Keys with their values, in file order; a key may occur twice here and is refused later, by name.</summary>
/// <param name="Line">Line of its first key.</param>
/// <param name="Entries">The keys and values.</param>
internal sealed record YamlMap(int Line, IReadOnlyList<YamlEntry> Entries) : YamlNode(Line)
{
    /// <inheritdoc/>
    public override string Kind => "a group of keys";
}
