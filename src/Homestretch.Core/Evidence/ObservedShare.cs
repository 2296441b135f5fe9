namespace Homestretch.Core.Evidence;

/// <summary>What was seen on a topic, before any model: correct answers of items.</summary>
/// <param name="Correct">Correct answers.</param>
/// <param name="Items">Items answered, one or more.</param>
public readonly record struct ObservedShare(int Correct, int Items)
{
    private const double Confidence = 0.9;

    /// <summary>Share correct, 0 to 1.</summary>
    public double Share => (double)Correct / Items;

    /// <summary>Wilson's 90 % interval: what these items alone would say, without the person's other topics.</summary>
    public ProportionInterval Interval => ProportionInterval.Wilson(Correct, Items, Confidence);

    /// <summary>The share in <paramref name="observations"/>; null where there are none or one gives only a band.</summary>
    public static ObservedShare? Of(IEnumerable<Observation> observations)
    {
        int correct = 0;
        int items = 0;
        foreach (Observation observation in observations)
        {
            switch (observation)
            {
                case ItemResponse response:
                    correct += response.Correct ? 1 : 0;
                    break;
                case TopicCount { IsExact: true } count:
                    correct += count.LowCorrect;
                    break;
                default:
                    return null;
            }

            items += observation.ItemCount;
        }

        return items == 0 ? null : new ObservedShare(correct, items);
    }
}
