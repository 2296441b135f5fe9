using Homestretch.Core.Blueprints;

namespace Homestretch.Core.Calibration;

/// <summary>An exam as one of its tests had it: the same rule and topics, other numbers of items.</summary>
internal static class TestedExam
{
    // 70 % of 60 must be 42, also where it is a hair above 42 in binary.
    private const double Rounding = 1e-9;

    /// <summary>The exam with these items.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="items">Scored items per topic, in the order of <see cref="Exam.Topics"/>; every section has one or more.</param>
    public static Exam Of(Exam exam, IReadOnlyList<int> items)
    {
        if (exam.Topics.Select(t => t.Topic.Items).SequenceEqual(items))
        {
            return exam;
        }

        List<Section> sections = [];
        int first = 0;
        foreach (Section section in exam.Sections)
        {
            int scored = section.Topics.Select((_, t) => items[first + t]).Sum();
            sections.Add(new Section(
                section.Name,
                scored,
                0,
                null,
                section.Options,
                section.Cut is null ? null : Cut(section.Cut, section.ScoredItems, scored),
                [.. section.Topics.Select((t, i) => t with { Items = items[first + i], Subtopics = [] })]));
            first += section.Topics.Length;
        }

        return new Exam(
            exam.Name,
            exam.Edition,
            exam.Source,
            [.. sections],
            exam.Rule,
            exam.TotalCut is null ? null : Cut(exam.TotalCut, exam.ScoredItems, items.Sum()),
            exam.Retake,
            exam.Bands);
    }

    // A percentage means the same on a test of any length. A count or a table is about the exam's own length: the same share of the items, rounded up.
    private static CutScore Cut(CutScore cut, int examItems, int testItems) => cut switch
    {
        PercentCut or ScaledLineCut => cut,
        _ when examItems == testItems => cut,
        _ => new CorrectCut(Math.Max(1, (int)Math.Ceiling(((double)cut.RequiredCorrect(examItems) / examItems * testItems) - Rounding))),
    };
}
