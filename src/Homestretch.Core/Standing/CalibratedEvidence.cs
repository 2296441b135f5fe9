using Homestretch.Core.Evidence;

namespace Homestretch.Core.Standing;

/// <summary>What answers to items of a bank say about a topic's ability.</summary>
/// <remarks>How hard the items are is known, but only against each other: where priors were learned on other items than the bank's, the two sets may differ in difficulty.</remarks>
internal sealed class CalibratedEvidence(ItemBank bank, ResponseCurve curve, AbilityGrid grid, StandingAssumptions assumptions)
{
    private double[]? abilities;
    private double sd;

    public bool Knows(DatedObservation evidence) => bank.Find(evidence) is not null;

    /// <summary>Multiplies a message on the grid by the likelihood of the answers it knows, up to a constant.</summary>
    public void Weigh(IEnumerable<DatedObservation> evidence, double[] message)
    {
        double[]? logs = null;
        foreach (DatedObservation dated in evidence)
        {
            if (bank.Find(dated) is not { } item)
            {
                continue;
            }

            ItemResponse response = (ItemResponse)dated.Observation;
            abilities ??= OnBankScale(response.Topic);
            logs ??= new double[grid.Count];
            for (int i = 0; i < logs.Length; i++)
            {
                logs[i] += response.Correct ? item.Curve.LogRight(abilities[i]) : item.Curve.LogWrong(abilities[i]);
            }
        }

        if (logs is not null)
        {
            Spans.ExpFromMax(logs, logs);
            Spans.Multiply(message, sd == 0 ? logs : new GaussianKernel(sd, grid.Step).SmoothLevelling(logs), message);
        }
    }
    private double[] OnBankScale(string topic)
    {
        (string? test, int items) = bank.Source(topic);
        ResponseCurve met = curve;
        if (assumptions.ItemSpread > 0 && !assumptions.IsLearnedOn(test))
        {
            (double shift, sd) = assumptions.EvidenceItems(topic, test, items);
            met = curve with { Shift = curve.Shift + shift };
        }

        double[] chances = new double[grid.Count];
        for (int i = 0; i < chances.Length; i++)
        {
            chances[i] = met.Chance(grid[i]);
        }

        return bank.AbilitiesFor(topic, chances);
    }
}
