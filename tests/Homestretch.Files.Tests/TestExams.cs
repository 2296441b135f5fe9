using System.Collections.Immutable;

using Homestretch.Core.Blueprints;

using NodaTime;

namespace Homestretch.Files.Tests;

/// <summary>The museum registrar's exam of the demo, built in code so that these tests need no exam file.</summary>
public static class TestExams
{
    public static Exam Registrar { get; } = new(
        "Certificate for Registrars of Small Museums",
        "2026",
        new FigureSource("Candidate handbook", new LocalDate(2026, 2, 1), null),
        [
            new Section("Care of collections", 75, 10, 105, 4, new PercentCut(65),
                Topics(75,
                [
                    ("Cataloguing", Weight.Percent(30), ["Object records", "Numbering and marking", "Terminology"]),
                    ("Preventive conservation", Weight.Percent(28), ["Climate and light", "Pests", "Storage materials"]),
                    ("Handling and packing", Weight.Percent(24), ["Moving objects", "Packing and crating"]),
                    ("Emergency plans", Weight.Percent(18), ["Risk and prevention", "Salvage"]),
                ])),
            new Section("Documents and law", 55, 5, 80, 4, new PercentCut(62),
                Topics(55,
                [
                    ("Loans and insurance", Weight.PercentRange(35, 40), ["Loan agreements", "Insurance and indemnity", "Couriers"]),
                    ("Title and ethics", Weight.PercentRange(25, 30), ["Provenance", "Codes of ethics"]),
                    ("Acquisition and disposal", Weight.Percent(20), ["Acquisition files", "Disposal"]),
                    ("Copyright and images", Weight.PercentRange(10, 20), ["Rights", "Image licences"]),
                ])),
        ],
        OverallRule.EverySection,
        null,
        new RetakeRule(45, 3),
        BandEdges.Default);

    /// <summary>Two topics share a subtopic's name, one topic has a stroke in its name, one has no subtopics.</summary>
    public static Exam Awkward { get; } = new(
        "Awkward names",
        null,
        null,
        [
            new Section("Whole", 40, 0, null, 4, new CorrectCut(20),
                Topics(40,
                [
                    ("Light/heat", Weight.Items(10), ["Basics", "Lamps"]),
                    ("Water", Weight.Items(20), ["Basics", "Leaks"]),
                    ("Paper", Weight.Items(10), []),
                ])),
        ],
        OverallRule.EverySection,
        null,
        null,
        BandEdges.Default);

    private static ImmutableArray<Topic> Topics(int scored, (string Name, Weight Weight, string[] Subtopics)[] topics)
    {
        int[] items = Apportionment.LargestRemainder([.. topics.Select(t => t.Weight.Midpoint)], scored);
        return [.. topics.Select((t, i) => new Topic(t.Name, t.Weight, items[i], Subtopics(t.Subtopics, items[i])))];
    }

    private static ImmutableArray<Subtopic> Subtopics(string[] names, int items)
    {
        if (names.Length == 0)
        {
            return [];
        }

        int[] counts = Apportionment.LargestRemainder([.. names.Select(_ => 1.0)], items);
        return [.. names.Select((n, i) => new Subtopic(n, null, counts[i]))];
    }
}
