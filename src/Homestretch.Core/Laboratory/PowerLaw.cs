using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;

namespace Homestretch.Core.Laboratory;

/// <summary>The planner's own law: gains linear in hours up to saturation, forgotten by a power law that spacing slows.</summary>
/// <remarks>Gain on a topic = rate x S (1 - exp(-e / S)), e = breadth factor x hours retained; docs/model.md has the whole.</remarks>
public sealed record PowerLaw : LearningLaw
{
    internal override Learner Start(Person person, ExamWorld world) => new State(person.Rate, world);

    private sealed class State(double rate, ExamWorld world) : Learner
    {
        private readonly List<StudyMoment>[] study = [.. world.Exam.Topics.Select(_ => new List<StudyMoment>())];

        public override void Study(int day, int topic, double hours, StudyKind kind) => study[topic].Add(new StudyMoment(day, hours, kind));

        public override double Gain(int topic, int day)
            => study[topic].Count == 0
                ? 0
                : rate * LearningAssumptions.Default.Effective(world.Breadth[topic] * LearningAssumptions.Default.Retained([.. study[topic]], day));
    }
}
