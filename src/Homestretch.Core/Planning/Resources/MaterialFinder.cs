using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Planning.Calendar;

namespace Homestretch.Core.Planning.Resources;

/// <summary>Gives each block of a plan the next part of what there is to study from.</summary>
/// <remarks>Blocks for learning take material that teaches, blocks for practice and quizzes take practice items, reviews take references. Within a topic the
/// resources follow each other in the order of the catalogue, editions older than the blueprint last, and a part begins where the one before it ended.</remarks>
public static class MaterialFinder
{
    /// <summary>Finds the material of a plan.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="exam">The exam; the day its figures were published is the day of the blueprint in force.</param>
    /// <param name="resources">The catalogue.</param>
    /// <param name="done">The person's study so far; its minutes count as worked through already.</param>
    public static PlanMaterial Find(StudyPlan plan, Exam exam, ImmutableArray<StudyResource> resources, IEnumerable<StudySession> done)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(done);
        NodaTime.LocalDate? blueprint = exam.Source?.Date;
        StudyResource[] byAge = [.. resources.Where(r => !r.IsOlderThan(blueprint)), .. resources.Where(r => r.IsOlderThan(blueprint))];
        ILookup<(string, ResourceKind), StudySession> before = done.ToLookup(s => (s.Topic, KindOf(s.Kind)));
        Dictionary<(string, ResourceKind), ResourceQueue> queues = [];
        HashSet<string> usedUp = [];
        List<ImmutableArray<ResourcePart>> blocks = [];
        foreach (StudyBlock block in plan.Blocks)
        {
            ResourceKind kind = KindOf(block.Purpose.Kind());
            (string, ResourceKind) key = (block.Topic.Name, kind);
            if (!queues.TryGetValue(key, out ResourceQueue? queue))
            {
                queues[key] = queue = new(block.Topic.Name, byAge.Where(r => r.Kind == kind && r.Topics.Contains(block.Topic.Name)));
                queue.Take(before[key].Sum(s => s.Minutes));
            }

            (ImmutableArray<ResourcePart> parts, bool isWhole) = queue.Take(block.Minutes);
            blocks.Add(parts);
            if (kind == ResourceKind.Teaches && !isWhole)
            {
                usedUp.Add(block.Topic.Name);
            }
        }

        HashSet<string> worked = [.. plan.Blocks.Where(b => b.Purpose != BlockPurpose.Review).Select(b => b.Topic.Name)];
        ExamTopic[] focus = [.. plan.Minutes.OrderBy(m => m.Order).Select(m => m.Topic).Where(t => worked.Contains(t.Name))];
        bool Teaches(ExamTopic topic) => resources.Any(r => r.Kind == ResourceKind.Teaches && r.Topics.Contains(topic.Name));
        return new(
            [.. blocks],
            [.. focus.Where(t => !Teaches(t))],
            [.. focus.Where(t => Teaches(t) && usedUp.Contains(t.Name))],
            [.. resources.Where(r => r.IsOlderThan(blueprint))]);
    }

    private static ResourceKind KindOf(StudyKind kind) => kind switch
    {
        StudyKind.Teaching or StudyKind.WorkedExamples => ResourceKind.Teaches,
        StudyKind.PracticeItems or StudyKind.Retrieval => ResourceKind.PracticeItems,
        _ => ResourceKind.Reference,
    };
}
