using Homestretch.Core.Evidence;

namespace Homestretch.Core.Laboratory;

/// <summary>Learning as an exponential approach to mastery, with thresholds: practice brings little to who was never taught, and half of the topics need the one before them.</summary>
/// <remarks>
/// <para>An hour lifts a topic by rate x breadth x f x (ceiling - ability) / ceiling, so weak topics rise faster than the planner thinks and strong ones slower.</para>
/// <para>f is <see cref="UntaughtShare"/> for practice while the topic is below the threshold and was taught for less than <see cref="TaughtHours"/>; every second
/// topic of the exam needs the one before it: while that is below the threshold, f is multiplied by <see cref="MissingBasisShare"/>.</para>
/// <para>After d days <see cref="KeptForGood"/> + (1 - <see cref="KeptForGood"/>) exp(-d / <see cref="ForgettingDays"/>) of a gain is left, however it was spaced.</para>
/// </remarks>
public sealed record Prerequisites : LearningLaw
{
    /// <summary>Ability that no study exceeds, in logits.</summary>
    public double Ceiling { get; init; } = 2.5;

    /// <summary>Ability below which practice needs teaching first, and a topic is no basis for the next.</summary>
    public double Threshold { get; init; } = -0.2;

    /// <summary>Hours of teaching after which practice pays in full.</summary>
    public double TaughtHours { get; init; } = 1;

    /// <summary>Share that practice brings before.</summary>
    public double UntaughtShare { get; init; } = 0.2;

    /// <summary>Share that any study brings while the topic it builds on is below the threshold.</summary>
    public double MissingBasisShare { get; init; } = 0.4;

    /// <summary>Share of a gain that is never forgotten.</summary>
    public double KeptForGood { get; init; } = 0.65;

    /// <summary>Days in which the rest falls to 37 %.</summary>
    public double ForgettingDays { get; init; } = 10;

    internal override Learner Start(Person person, ExamWorld world) => new State(this, person, world);

    private sealed class State(Prerequisites law, Person person, ExamWorld world) : Learner
    {
        private readonly double[] level = [.. person.Abilities];
        private readonly double[] taught = new double[person.Abilities.Length];
        private readonly List<(int Day, double Gain)>[] gains = [.. person.Abilities.Select(_ => new List<(int, double)>())];

        public override void Study(int day, int topic, double hours, StudyKind kind)
        {
            bool teaches = kind is StudyKind.Teaching or StudyKind.WorkedExamples;
            double share = teaches || level[topic] >= law.Threshold || taught[topic] >= law.TaughtHours ? 1 : law.UntaughtShare;
            if (topic % 2 == 1 && level[topic - 1] < law.Threshold)
            {
                share *= law.MissingBasisShare;
            }

            double speed = share * person.Rate * world.Breadth[topic] / law.Ceiling;
            double gain = Math.Max(0, law.Ceiling - level[topic]) * (1 - Math.Exp(-speed * hours));
            level[topic] += gain;
            taught[topic] += teaches ? hours : 0;
            gains[topic].Add((day, gain));
        }

        public override double Gain(int topic, int day)
        {
            double sum = 0;
            foreach ((int at, double gain) in gains[topic])
            {
                sum += gain * (law.KeptForGood + ((1 - law.KeptForGood) * Math.Exp((at - day) / law.ForgettingDays)));
            }

            return sum;
        }
    }
}
