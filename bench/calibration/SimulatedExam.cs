using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Measurement;

namespace Homestretch.Calibration;

/// <summary>People and items drawn from the model itself, in the shape of the mathematics exam: what is off here is no fault of the model's shape.</summary>
internal static class SimulatedExam
{
    private const int People = 729;
    private const double AbilitySd = 1;
    private const double TopicSd = 0.3;
    private const double ItemSd = 1;
    private const double ExamSd = 0.5;

    /// <summary>One exam and everybody's answers.</summary>
    /// <param name="seed">Same seed, same exam.</param>
    /// <param name="times">How many times the mathematics exam's 4, 3, 3 and 3 items per topic.</param>
    public static RealData Draw(int seed, int times)
    {
        Random random = new(seed);
        double Normal(double sd) => sd * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        int[] perTopic = [4 * times, 3 * times, 3 * times, 3 * times];
        double level = 0.3 + Normal(ExamSd);
        (int Topic, double Ease)[] items = [.. perTopic.SelectMany((n, t) => Enumerable.Range(0, n).Select(_ => (t, level + Normal(ItemSd))))];
        ImmutableArray<PersonAnswers> persons =
        [
            .. Enumerable.Range(0, People).Select(p =>
            {
                double ability = Normal(AbilitySd);
                double[] topics = [.. perTopic.Select(_ => ability + Normal(TopicSd))];
                return new PersonAnswers($"{p}", [.. items.Select(i => new ItemAnswer(random.NextDouble() < 1 / (1 + Math.Exp(-(topics[i.Topic] + i.Ease))) ? ItemScore.Right : ItemScore.Wrong))]);
            }),
        ];
        string[] names = ["first", "second", "third", "fourth"];
        Exam exam = new(
            "Simulated exam",
            null,
            null,
            [new Section("Whole", items.Length, 0, null, 0, null, [.. names.Select((name, t) => new Topic(name, Weight.Items(perTopic[t]), perTopic[t], []))])],
            OverallRule.Total,
            new PercentCut(60),
            null,
            BandEdges.Default);
        return new RealData(exam, new ItemScores([.. items.Select((item, i) => new TestItem($"{i + 1}", names[item.Topic]))], persons));
    }
}
