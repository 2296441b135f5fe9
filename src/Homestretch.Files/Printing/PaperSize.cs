namespace Homestretch.Files.Printing;

/// <summary>The paper that a PDF is made for.</summary>
public enum PaperSize
{
    /// <summary>210 x 297 mm.</summary>
    A4,

    /// <summary>8.5 x 11 inches.</summary>
    Letter,
}
