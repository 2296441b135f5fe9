using Homestretch.Core.Evidence;

namespace Homestretch.Core.Standing;

/// <summary>What answers to items of a bank say about a topic's ability.</summary>
internal sealed class CalibratedEvidence(ItemBank bank, ResponseCurve curve, AbilityGrid grid)
{
    private double[]? abilities;

    public bool Knows(Observation observation) => observation is ItemResponse response && bank.Find(response.Topic, response.Item) is not null;

    /// <summary>Multiplies a message on the grid by the likelihood of the answers it knows, up to a constant.</summary>
    public void Weigh(IEnumerable<Observation> observations, double[] message)
    {
        double[]? logs = null;
        foreach (ItemResponse response in observations.OfType<ItemResponse>())
        {
            if (bank.Find(response.Topic, response.Item) is not { } item)
            {
                continue;
            }

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
            Spans.Multiply(message, logs, message);
        }
    }

    private double[] OnBankScale(string topic)
    {
        double[] chances = new double[grid.Count];
        for (int i = 0; i < chances.Length; i++)
        {
            chances[i] = curve.Chance(grid[i]);
        }

        return bank.AbilitiesFor(topic, chances);
    }
}
