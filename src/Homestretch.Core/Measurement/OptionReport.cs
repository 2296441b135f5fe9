namespace Homestretch.Core.Measurement;

/// <summary>How one option of an item was chosen.</summary>
/// <param name="Option">The option.</param>
/// <param name="IsKey">Whether it is the correct one.</param>
/// <param name="Count">People who chose it.</param>
/// <param name="Share">Their share among those who reached the item and whose choice is known, 0 to 1.</param>
/// <param name="UpperShare">Share of it in the best third by the other items.</param>
/// <param name="LowerShare">Share of it in the lowest third.</param>
/// <param name="RestCorrelation">Correlation between choosing it and the share correct on the other items.</param>
public sealed record OptionReport(
    string Option,
    bool IsKey,
    int Count,
    double Share,
    Statistic UpperShare,
    Statistic LowerShare,
    Statistic RestCorrelation);
