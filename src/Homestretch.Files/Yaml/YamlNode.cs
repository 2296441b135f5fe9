namespace Homestretch.Files.Yaml;

/// <summary>A piece of a YAML file with the line it starts on.</summary>
/// <param name="Line">Line, from 1.</param>
internal abstract record YamlNode(int Line)
{
    /// <summary>What a person would call it: "a list", "a group of keys", "a single value".</summary>
    public abstract string Kind { get; }
}
