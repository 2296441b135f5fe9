namespace Homestretch.Core.Standing;

/// <summary>The words for levels, the same in sentences, tables, pictures and documents.</summary>
public static class BandWords
{
    /// <summary>weak, borderline or strong.</summary>
    public static string Word(this Band band) => band switch
    {
        Band.Weak => "weak",
        Band.Borderline => "borderline",
        Band.Strong => "strong",
        _ => throw new ArgumentOutOfRangeException(nameof(band)),
    };
}
