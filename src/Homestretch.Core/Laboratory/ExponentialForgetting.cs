using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;

namespace Homestretch.Core.Laboratory;

/// <summary>Gains as in the planner's law, forgotten exponentially: faster than by a power law in the long run, and each further day of study makes what is left last longer.</summary>
/// <remarks>What is left of a topic's gain falls as exp(-days / T); T is <see cref="FirstDays"/> after the first day of study and <see cref="Growth"/> times longer after each further one.</remarks>
public sealed record ExponentialForgetting : LearningLaw
{
    /// <summary>T after one day of study.</summary>
    public double FirstDays { get; init; } = 14;

    /// <summary>Factor on T for each further day.</summary>
    public double Growth { get; init; } = 1.6;

    internal override Learner Start(Person person, ExamWorld world) => new State(this, person.Rate, world);

    private sealed class State(ExponentialForgetting law, double rate, ExamWorld world) : Learner
    {
        private readonly double[] hoursOn = new double[world.Breadth.Length];
        private readonly double[] left = new double[world.Breadth.Length];
        private readonly double[] lasting = new double[world.Breadth.Length];
        private readonly int[] last = new int[world.Breadth.Length];

        public override void Study(int day, int topic, double hours, StudyKind kind)
        {
            LearningAssumptions known = LearningAssumptions.Default;
            left[topic] = Gain(topic, day);
            lasting[topic] = lasting[topic] == 0 ? law.FirstDays : day > last[topic] ? lasting[topic] * law.Growth : lasting[topic];
            last[topic] = day;
            double before = known.Effective(world.Breadth[topic] * hoursOn[topic]);
            hoursOn[topic] += known.Effect(kind).Gain * hours;
            left[topic] += rate * (known.Effective(world.Breadth[topic] * hoursOn[topic]) - before);
        }

        public override double Gain(int topic, int day) => lasting[topic] == 0 ? 0 : left[topic] * Math.Exp((last[topic] - day) / lasting[topic]);
    }
}
