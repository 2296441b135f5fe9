using Homestretch.Core.Measurement;

namespace Homestretch.Files.Documents;

/// <summary>How one option of an item was chosen.</summary>
/// <param name="Option">The option.</param>
/// <param name="IsKey">Whether it is the correct one.</param>
/// <param name="Count">People who chose it.</param>
/// <param name="Share">Their share, 0 to 1.</param>
/// <param name="UpperShare">Share in the best third by the other items.</param>
/// <param name="LowerShare">Share in the lowest third.</param>
/// <param name="RestCorrelation">Correlation with the share correct on the other items.</param>
public sealed record OptionFields(
    string Option, bool IsKey, int Count, double Share, StatisticFields UpperShare, StatisticFields LowerShare, StatisticFields RestCorrelation)
{
    internal static OptionFields Of(OptionReport option) => new(
        option.Option,
        option.IsKey,
        option.Count,
        option.Share,
        StatisticFields.Of(option.UpperShare),
        StatisticFields.Of(option.LowerShare),
        StatisticFields.Of(option.RestCorrelation));
}
