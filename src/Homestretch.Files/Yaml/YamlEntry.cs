namespace Homestretch.Files.Yaml;

/// <summary>A key and its value.</summary>
internal sealed record YamlEntry(YamlScalar Key, YamlNode Value);
