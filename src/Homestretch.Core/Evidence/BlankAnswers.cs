using Homestretch.Core.Blueprints;

namespace Homestretch.Core.Evidence;

/// <summary>Tells blanks at the end of a test, where time ran out, from items passed over.</summary>
public static class BlankAnswers
{
    /// <summary>For each answer, whether the person did not get as far: it is blank, and so is every later one.</summary>
    /// <param name="exam">The exam whose topics the answers name.</param>
    /// <param name="responses">One person's answers to one test, in the order in which the items came.</param>
    /// <remarks>Where each section's items stand together, each section has its own end, since it may have its own clock.</remarks>
    public static bool[] NotReached(Exam exam, IReadOnlyList<ItemResponse> responses)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(responses);
        Dictionary<string, int> sectionOf = exam.Topics.ToDictionary(t => t.Name, t => t.SectionIndex, StringComparer.Ordinal);
        int[] sections = [.. responses.Select(r => sectionOf[r.Topic])];
        int changes = Enumerable.Range(1, Math.Max(0, sections.Length - 1)).Count(i => sections[i] != sections[i - 1]);
        bool ownEnds = changes == sections.Distinct().Count() - 1;
        bool[] notReached = new bool[responses.Count];
        HashSet<int> ended = [];
        for (int i = responses.Count - 1; i >= 0; i--)
        {
            int end = ownEnds ? sections[i] : 0;
            if (!responses[i].Omitted)
            {
                ended.Add(end);
            }

            notReached[i] = !ended.Contains(end);
        }

        return notReached;
    }
}
