namespace Homestretch.Core.Words;

/// <summary>How many further recalls of one word are worth their price, each on its best day, with the answers still to come averaged over.</summary>
internal sealed class WordDraft
{
    private const double Rises = 1e-9;

    /// <summary>Recalls are added as long as the next one adds more than its price.</summary>
    /// <param name="memory">What is known of the word.</param>
    /// <param name="best">What further recalls of it can leave.</param>
    /// <param name="price">What a recall costs, as a chance.</param>
    public WordDraft(WordMemory memory, BestRecalls best, double price)
    {
        List<double> steps = [];
        Chance = memory.Known(best.Strength(0)!.Value);
        while (best.Strength(steps.Count + 1) is { } strength && memory.Known(strength) is var next && next - Chance > price + Rises)
        {
            steps.Add(next - Chance);
            Chance = next;
        }

        Steps = steps;
        Value = Chance - (price * steps.Count);
    }

    /// <summary>The chance of knowing the word on exam day, less the price of its recalls.</summary>
    public double Value { get; }

    /// <summary>The chance of knowing the word on exam day.</summary>
    public double Chance { get; }

    /// <summary>What each recall adds, the price included, one after another.</summary>
    public IReadOnlyList<double> Steps { get; }
}
