using System.Collections.Immutable;

using Homestretch.Core.Blueprints;

namespace Homestretch.Core.Planning.Resources;

/// <summary>Which material goes with a plan.</summary>
/// <param name="Blocks">For each block of the plan, in its order, the parts to work on; none where the catalogue holds nothing for it.</param>
/// <param name="WithoutTeaching">Topics that the plan works on and about which no material teaches, in the order of study.</param>
/// <param name="UsedUp">Topics whose material that teaches ends before the plan's blocks for learning do, in the order of study.</param>
/// <param name="Outdated">Resources older than the blueprint in force, in the order of the catalogue.</param>
public sealed record PlanMaterial(
    ImmutableArray<ImmutableArray<ResourcePart>> Blocks,
    ImmutableArray<ExamTopic> WithoutTeaching,
    ImmutableArray<ExamTopic> UsedUp,
    ImmutableArray<StudyResource> Outdated)
{
    /// <summary>What to know about the material, in sentences.</summary>
    /// <param name="exam">The exam.</param>
    public ImmutableArray<string> Notes(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        List<string> notes = [];
        if (!WithoutTeaching.IsEmpty)
        {
            notes.Add($"No material that teaches is in the catalogue for {Names(WithoutTeaching)}; practice items alone rarely fill a gap, so look for some first.");
        }

        if (!UsedUp.IsEmpty)
        {
            notes.Add($"The material that teaches ends before the blocks for learning do: {Names(UsedUp)}.");
        }

        notes.AddRange(Outdated.Select(r => $"{r.Title} is older than the blueprint{(exam.Source is { } source ? $" of {source.Date:uuuu-MM-dd}" : "")}; check what has changed, or replace it."));
        return [.. notes];
    }

    private static string Names(ImmutableArray<ExamTopic> topics) => string.Join(", ", topics.Select(t => t.Name));
}
