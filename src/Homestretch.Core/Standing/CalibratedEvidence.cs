using Homestretch.Core.Evidence;

namespace Homestretch.Core.Standing;

/// <summary>What answers to items of a bank say about a topic's ability.</summary>
/// <remarks>How hard the items are is known, but only against each other: where priors were learned on other items than the bank's, the two sets may differ in difficulty.</remarks>
internal sealed class CalibratedEvidence(ItemBank bank, ResponseCurve curve, AbilityGrid grid, StandingAssumptions assumptions)
{
    private double[]? abilities;

    public bool Knows(DatedObservation evidence) => bank.Find(evidence) is not null;

    /// <summary>Multiplies a message on the grid by the likelihood of the answers it knows, up to a constant.</summary>
    public void Weigh(IEnumerable<DatedObservation> evidence, double[] message)
    {
        string? topic = null;
        double[] logs = new double[grid.Count];
        foreach (DatedObservation dated in evidence)
        {
            if (bank.Find(dated) is not { } item)
            {
                continue;
            }

            ItemResponse response = (ItemResponse)dated.Observation;
            topic = response.Topic;
            abilities ??= OnBankScale(topic, 0, grid.Count);
            for (int i = 0; i < logs.Length; i++)
            {
                logs[i] += response.Correct ? item.Curve.LogRight(abilities[i]) : item.Curve.LogWrong(abilities[i]);
            }
        }

        if (topic is not null)
        {
            Spans.ExpFromMax(logs, logs);
            double sd = Met(topic).Sd;
            Spans.Multiply(message, sd == 0 ? logs : new GaussianKernel(sd, grid.Step).SmoothLevelling(logs), message);
        }
    }

    /// <summary>Chances of a correct answer to items of one topic, at <paramref name="count"/> points of the grid from <paramref name="start"/> on.</summary>
    /// <param name="items">At least one item, all on one topic.</param>
    /// <param name="start">Index of the first point.</param>
    /// <param name="count">Number of points.</param>
    public double[][] Chances(IReadOnlyList<BankItem> items, int start, int count)
    {
        GaussianKernel difference = new(Met(items[0].Topic).Sd, grid.Step);
        double[] wide = OnBankScale(items[0].Topic, start - difference.Reach, count + (2 * difference.Reach));
        return [.. items.Select(item => difference.Smooth(count, i => item.Curve.Chance(wide[i])))];
    }

    // The curve on which the bank's items on a topic are met, and how far they may differ from what it says.
    private (ResponseCurve Curve, double Sd) Met(string topic)
    {
        (string? test, int items) = bank.Source(topic);
        if (assumptions.ItemSpread == 0 || assumptions.IsLearnedOn(test))
        {
            return (curve, 0);
        }

        (double shift, double spread) = assumptions.EvidenceItems(topic, test, items);
        return (curve with { Shift = curve.Shift + shift }, spread);
    }

    private double[] OnBankScale(string topic, int start, int count)
    {
        ResponseCurve met = Met(topic).Curve;
        double[] chances = new double[count];
        for (int i = 0; i < chances.Length; i++)
        {
            chances[i] = met.Chance(grid[start + i]);
        }

        return bank.AbilitiesFor(topic, chances);
    }
}
