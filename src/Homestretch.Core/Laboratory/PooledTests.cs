namespace Homestretch.Core.Laboratory;

/// <summary>Every item has its own difficulty and discrimination; the tests draw from one finite pool.</summary>
/// <remarks>P = c + (1 - c) / (1 + exp(-a (theta - b))) (two-parameter logistic, Birnbaum 1968, with guessing); log a ~ Normal(0, <see cref="DiscriminationLogSd"/>), b ~ Normal(0, <see cref="DifficultySd"/>).
/// A topic's pool has <see cref="PoolTimesExam"/> times the exam's items. All candidates of an exam take one diagnostic; each quiz and each exam is a draw of its own.</remarks>
public sealed record PooledTests : TestSource
{
    /// <summary>Spread of the logarithm of discrimination.</summary>
    public double DiscriminationLogSd { get; init; } = 0.35;

    /// <summary>Spread of difficulty within a topic, in logits.</summary>
    public double DifficultySd { get; init; } = 0.9;

    /// <summary>Items in a topic's pool for each item in the exam.</summary>
    public int PoolTimesExam { get; init; } = 4;

    internal override void Answer(ExamWorld world, Sitting sitting, ReadOnlySpan<double> abilities, ReadOnlySpan<int> items, Span<int> correct)
    {
        Span<int> chosen = stackalloc int[PoolTimesExam * world.Exam.ScoredItems];
        for (int t = 0; t < items.Length; t++)
        {
            (double Discrimination, double Difficulty)[] pool = world.Pools[t];
            Span<int> order = chosen[..pool.Length];
            for (int i = 0; i < order.Length; i++)
            {
                order[i] = i;
            }

            if (sitting.Test > 0)
            {
                RandomSequence draw = new(sitting.Seed, Draws.Items, sitting.Candidate, (sitting.Test * MostTopics) + t);
                draw.Choose(order, items[t]);
            }

            RandomSequence luck = Luck(sitting, t);
            double guess = world.Curves[t].Guess;
            int right = 0;
            for (int i = 0; i < items[t]; i++)
            {
                (double a, double b) = pool[order[i]];
                right += luck.Uniform() < guess + ((1 - guess) / (1 + Math.Exp(-a * (abilities[t] - b)))) ? 1 : 0;
            }

            correct[t] = right;
        }
    }

    internal (double Discrimination, double Difficulty)[][] Pools(ReadOnlySpan<int> examItems, long seed, int exam)
    {
        (double, double)[][] pools = new (double, double)[examItems.Length][];
        for (int t = 0; t < pools.Length; t++)
        {
            RandomSequence random = new(seed, Draws.Pool, exam, t);
            pools[t] = new (double, double)[PoolTimesExam * examItems[t]];
            for (int i = 0; i < pools[t].Length; i++)
            {
                pools[t][i] = (Math.Exp(DiscriminationLogSd * random.Normal()), DifficultySd * random.Normal());
            }
        }

        return pools;
    }
}
