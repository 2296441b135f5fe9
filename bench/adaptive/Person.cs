using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Standing;

namespace Homestretch.Adaptive;

/// <summary>A simulated person: abilities drawn from the model's prior, and what they would answer to each item.</summary>
internal sealed class Person
{
    private readonly Dictionary<BankItem, bool> answers = [];

    public Person(Exam exam, ItemBank bank, AbilityPosterior prior, PassByAbility pass, Random random)
    {
        int node = Pick(prior.Weights.AsSpan(), random);
        int[] abilities = new int[exam.Topics.Length];
        for (int t = 0; t < abilities.Length; t++)
        {
            ConditionalAbility conditional = prior.Conditional(t, node);
            abilities[t] = conditional.Start + Pick(conditional.Density.AsSpan(), random);
        }

        PassChance = pass.PassChance(abilities);
        Dictionary<string, double> chances = exam.Topics
            .Select((topic, t) => (topic.Name, Chance: prior.Curves[t].Chance(prior.Grid[abilities[t]])))
            .ToDictionary(t => t.Name, t => t.Chance, StringComparer.Ordinal);
        foreach (BankItem item in bank.Items)
        {
            answers[item] = random.NextDouble() < bank.Chance(item, chances[item.Topic]);
        }
    }

    /// <summary>The true pass chance: what is left to chance when the abilities are known.</summary>
    public double PassChance { get; }

    public bool Answer(BankItem item) => answers[item];

    private static int Pick(ReadOnlySpan<double> weights, Random random)
    {
        double total = 0;
        foreach (double weight in weights)
        {
            total += weight;
        }

        double left = random.NextDouble() * total;
        int i = 0;
        while (i + 1 < weights.Length && (left -= weights[i]) > 0)
        {
            i++;
        }

        return i;
    }
}
