using System.Collections.Immutable;

using CsCheck;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Resources;
using Homestretch.Files.Handouts;

using NodaTime;

namespace Homestretch.Files.Tests.Resources;

/// <summary>Material for the blocks of a plan as it is made for anyone.</summary>
public class MaterialFinderTests
{
    private static readonly CandidateReport Report = SampleReports.ThreeWeeks;

    private static StudyPlan Plan => Report.Plan!;

    private static Exam Exam => Report.Standing.Exam;

    // The topic with the most blocks for learning.
    private static string Topic { get; } = Plan.Blocks.Where(b => b.Purpose == BlockPurpose.Learn).GroupBy(b => b.Topic.Name).MaxBy(g => g.Count())!.Key;

    [Fact]
    public void Each_block_goes_on_where_the_one_before_it_ended()
    {
        int[] minutes = [.. Learning().Select(b => b.Minutes)];
        Assert.True(minutes.Length >= 2);
        StudyResource book = Teaches("Handbook", minutes[0] + 10, where: "shelf 3");
        StudyResource talks = Teaches("Talks", 1000);
        ResourcePart[][] parts = Parts([book, talks]);
        Assert.Equal($"Handbook, minutes 0 to {minutes[0]} (shelf 3)", Assert.Single(parts[0]).Sentence);
        Assert.Equal([$"Handbook, minutes {minutes[0]} to {minutes[0] + 10} (shelf 3)", $"Talks, minutes 0 to {minutes[1] - 10}"], parts[1].Select(p => p.Sentence));
    }

    [Fact]
    public void Minutes_of_a_resource_on_several_topics_count_topic_by_topic()
    {
        int minutes = Learning().First().Minutes;
        ResourcePart[] parts = Parts([Teaches("Handbook", 1000) with { Topics = [.. Exam.Topics.Select(t => t.Name)] }])[0];
        Assert.Equal($"Handbook, minutes 0 to {minutes} of what it holds on {Topic}", Assert.Single(parts).Sentence);
    }

    [Fact]
    public void Study_that_was_done_counts_as_worked_through()
    {
        StudySession[] done = [new("Mara Venn", Topic, new LocalDate(2026, 11, 20), 30, StudyKind.Teaching), new("Mara Venn", Topic, new LocalDate(2026, 11, 20), 500, StudyKind.PracticeItems)];
        Assert.Equal(30, Assert.Single(Parts([Teaches("Handbook", 2000)], done)[0]).From);
    }

    [Fact]
    public void Material_of_unknown_length_is_named_without_minutes_and_never_ends()
    {
        Assert.All(Parts([Teaches("Handbook", null, where: "page 3")]), p => Assert.Equal("Handbook (page 3)", Assert.Single(p).Sentence));
        Assert.Empty(Find([Teaches("Handbook", null)]).UsedUp);
    }

    [Fact]
    public void Learning_takes_what_teaches_and_practice_takes_items()
    {
        PlanMaterial material = Find([Teaches("Handbook", null), All("Items", ResourceKind.PracticeItems), All("Exam", ResourceKind.PracticeExam), All("Terms", ResourceKind.Reference)]);
        foreach ((StudyBlock block, ImmutableArray<ResourcePart> parts) in Plan.Blocks.Zip(material.Blocks))
        {
            string[] expected = block.Purpose switch
            {
                BlockPurpose.Learn => block.Topic.Name == Topic ? ["Handbook"] : [],
                BlockPurpose.Review => ["Terms"],
                _ => ["Items"],
            };
            Assert.Equal(expected, parts.Select(p => p.Resource.Title));
        }
    }

    [Fact]
    public void Topics_without_material_that_teaches_are_flagged()
    {
        string[] worked = [.. Plan.Minutes.OrderBy(m => m.Order).Select(m => m.Topic.Name).Where(t => Plan.Blocks.Any(b => b.Topic.Name == t && b.Purpose != BlockPurpose.Review))];
        Assert.Equal(worked, Find([All("Items", ResourceKind.PracticeItems)]).WithoutTeaching.Select(t => t.Name));
        PlanMaterial one = Find([Teaches("Handbook", 1)]);
        Assert.Equal(worked.Where(t => t != Topic), one.WithoutTeaching.Select(t => t.Name));
        Assert.Equal([Topic], one.UsedUp.Select(t => t.Name));
        Assert.Equal(2, one.Notes(Exam).Length);
    }

    [Fact]
    public void Editions_older_than_the_blueprint_are_flagged_and_come_last()
    {
        // The blueprint's figures were published on 1 February 2026.
        StudyResource old = Teaches("Old", 1000) with { Edition = new LocalDate(2026, 1, 31) };
        StudyResource same = Teaches("Same day", 1000) with { Edition = new LocalDate(2026, 2, 1) };
        PlanMaterial material = Find([old, same]);
        Assert.Equal(["Old"], material.Outdated.Select(r => r.Title));
        Assert.Equal("Same day", Parts([old, same])[0][0].Resource.Title);
        Assert.Contains(material.Notes(Exam), n => n.StartsWith("Old is older than the blueprint of 2026-02-01", StringComparison.Ordinal));
    }

    [Fact]
    public void Parts_of_a_topic_follow_each_other_without_gap_and_fill_their_blocks()
    {
        Gen.Int[1, 200].Array[1, 6].Sample(lengths =>
        {
            StudyResource[] books = [.. lengths.Select((l, i) => Teaches($"Book {i}", l))];
            ResourcePart[][] parts = Parts([.. books]);
            int left = lengths.Sum();
            foreach ((StudyBlock block, ResourcePart[] own) in Learning().Zip(parts))
            {
                int minutes = own.Sum(p => p.To!.Value - p.From!.Value);
                Assert.Equal(Math.Min(left, block.Minutes), minutes);
                left -= minutes;
            }

            foreach (IGrouping<string, ResourcePart> book in parts.SelectMany(p => p).GroupBy(p => p.Resource.Title))
            {
                Assert.Equal(0, book.First().From);
                Assert.All(book.Zip(book.Skip(1)), pair => Assert.Equal(pair.First.To, pair.Second.From));
            }
        });
    }

    [Fact]
    public void The_handout_says_what_to_study_from()
    {
        string html = Handout.Html(Report with { Material = Find([Teaches("Handbook <b>", 2000, where: "shelf 3")]) });
        Assert.Contains("What to study from", html, StringComparison.Ordinal);
        Assert.Contains("Handbook &lt;b&gt;, minutes 0 to", html, StringComparison.Ordinal);
        Assert.Contains("No material that teaches", html, StringComparison.Ordinal);
        Assert.DoesNotContain("What to study from", Handout.Html(Report), StringComparison.Ordinal);
    }

    private static PlanMaterial Find(ImmutableArray<StudyResource> resources, params StudySession[] done) => MaterialFinder.Find(Plan, Exam, resources, done);

    private static IEnumerable<StudyBlock> Learning() => Plan.Blocks.Where(b => b.Topic.Name == Topic && b.Purpose == BlockPurpose.Learn);

    // Of the blocks for learning on the topic.
    private static ResourcePart[][] Parts(ImmutableArray<StudyResource> resources, params StudySession[] done)
        => [.. Plan.Blocks.Zip(Find(resources, done).Blocks).Where(b => b.First.Topic.Name == Topic && b.First.Purpose == BlockPurpose.Learn).Select(b => b.Second.ToArray())];

    private static StudyResource Teaches(string title, int? minutes, string? where = null) => new(title, ResourceKind.Teaches, [Topic], minutes, null, where);

    private static StudyResource All(string title, ResourceKind kind) => new(title, kind, [.. Exam.Topics.Select(t => t.Name)], null, null, null);
}
