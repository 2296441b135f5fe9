namespace Homestretch.Files;

/// <summary>One font file of the look.</summary>
/// <param name="Name">File name, as it is served.</param>
/// <param name="Weight">CSS font weight.</param>
/// <param name="Range">CSS unicode-range that the file covers.</param>
public sealed record FontFile(string Name, int Weight, string Range)
{
    /// <summary>The file's bytes (WOFF2).</summary>
    public byte[] Bytes() => Look.Resource("fonts." + Name);
}
