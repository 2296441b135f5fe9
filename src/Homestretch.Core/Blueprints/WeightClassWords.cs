namespace Homestretch.Core.Blueprints;

/// <summary>The words for weight classes, the same in sentences, tables, pictures and documents.</summary>
public static class WeightClassWords
{
    /// <summary>heavy, moderate or light.</summary>
    public static string Word(this WeightClass weight) => weight switch
    {
        WeightClass.Heavy => "heavy",
        WeightClass.Moderate => "moderate",
        WeightClass.Light => "light",
        _ => throw new ArgumentOutOfRangeException(nameof(weight)),
    };
}
