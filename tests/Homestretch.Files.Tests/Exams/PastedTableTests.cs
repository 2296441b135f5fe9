using System.Text;

using CsCheck;

using Homestretch.Files.Exams.Editing;
using Homestretch.Files.Exams.Pasting;

namespace Homestretch.Files.Tests.Exams;

/// <summary>Tables in the shapes in which blueprints are published, as they arrive when copied from a document or a spreadsheet.</summary>
public class PastedTableTests
{
    // What is expected: topics with their weights in brackets, subtopics after a colon, sections in front of a double bar.
    public static TheoryData<string, string, string> Shapes => new()
    {
        {
            "columns with tabs and headings",
            "Topic\tWeight\nCataloguing\t30 %\nPreventive conservation\t28 %\nHandling and packing\t24 %\nEmergency plans\t18 %",
            "Cataloguing [30 %]; Preventive conservation [28 %]; Handling and packing [24 %]; Emergency plans [18 %]"
        },
        {
            "items and percent side by side",
            "Content area\tNumber of items\t% of exam\nCataloguing\t22\t29\nPreventive conservation\t21\t28\nHandling\t18\t24\nEmergency plans\t14\t19\nTotal\t75\t100",
            "75 items: Cataloguing [22 items]; Preventive conservation [21 items]; Handling [18 items]; Emergency plans [14 items]"
        },
        {
            "a spreadsheet's fractions",
            "Cataloguing\t0.3\nPreventive conservation\t0.28\nHandling\t0.24\nEmergency plans\t0.18",
            "Cataloguing [30 %]; Preventive conservation [28 %]; Handling [24 %]; Emergency plans [18 %]"
        },
        {
            "semicolons and decimal commas",
            "Topic;Weight\nCataloguing;37,5 %\nLoans, insurance and couriers;37,5 %\nEthics;25 %",
            "Cataloguing [37.5 %]; Loans, insurance and couriers [37.5 %]; Ethics [25 %]"
        },
        {
            "commas with quotation marks",
            "topic,weight\nCataloguing,40%\n\"Loans, insurance and couriers\",35%\n\"The \"\"small\"\" museum\",25%",
            "Cataloguing [40 %]; Loans, insurance and couriers [35 %]; The \"small\" museum [25 %]"
        },
        {
            "a table drawn with bars",
            "| Topic | Percent |\n|-------|--------:|\n| Cataloguing | 60 |\n| Ethics | 40 |",
            "Cataloguing [60 %]; Ethics [40 %]"
        },
        {
            "runs of spaces",
            "Cataloguing                 30%\nPreventive conservation     28%\nHandling and packing        24%\nEmergency plans             18%",
            "Cataloguing [30 %]; Preventive conservation [28 %]; Handling and packing [24 %]; Emergency plans [18 %]"
        },
        {
            "leaders of dots",
            "Cataloguing ........... 60 %\nEthics . . . . . . . . 40 %",
            "Cataloguing [60 %]; Ethics [40 %]"
        },
        {
            "ranges in several spellings",
            "Loans and insurance 35–40%\nTitle and ethics: 25% - 30%\nAcquisition and disposal (20 percent)\nCopyright and images between 10 and 20 per cent",
            "Loans and insurance [35-40 %]; Title and ethics [25-30 %]; Acquisition and disposal [20 %]; Copyright and images [10-20 %]"
        },
        {
            "ranges with to, and about",
            "Loans — approx. 40 %\nEthics — 25 to 35 percent of the exam\nDisposal — about 30%",
            "Loans [40 %]; Ethics [25-35 %]; Disposal [30 %]"
        },
        {
            "items in brackets",
            "Cataloguing (22 items)\nConservation (21 questions)\nHandling, 18 scored items\nEmergency plans – 14 multiple-choice questions",
            "75 items: Cataloguing [22 items]; Conservation [21 items]; Handling [18 items]; Emergency plans [14 items]"
        },
        {
            "weights first",
            "30% Cataloguing\n28% – Preventive conservation\n24 % Handling\n18 % of the exam: Emergency plans",
            "Cataloguing [30 %]; Preventive conservation [28 %]; Handling [24 %]; Emergency plans [18 %]"
        },
        {
            "roman numbers and letters",
            "I. Cataloguing (60%)\n   A. Object numbers\n   B. Describing\n   C. Location records\n   D. Terms\nII. Ethics (40%)\n   A. Ownership\n   B. Codes",
            "Cataloguing [60 %]: Object numbers, Describing, Location records, Terms; Ethics [40 %]: Ownership, Codes"
        },
        {
            "roman numbers and letters that lost their indentation",
            "I. Cataloguing (60%)\nA. Object numbers\nB. Describing\nC. Location records\nII. Ethics (40%)\nA. Ownership",
            "Cataloguing [60 %]: Object numbers, Describing, Location records; Ethics [40 %]: Ownership"
        },
        {
            "dotted numbers with weights of the whole",
            "1.0 Cataloguing 30%\n1.1 Object numbers 12%\n1.2 Describing 18%\n2.0 Everything else 70%\n2.1 Care 35%\n2.2 Law 35%",
            "Cataloguing [30 %]: Object numbers [40 %], Describing [60 %]; Everything else [70 %]: Care [50 %], Law [50 %]"
        },
        {
            "dotted numbers with weights of the topic",
            "1 Cataloguing\t60%\n1.1 Object numbers\t30%\n1.2 Describing\t70%\n2 Ethics\t40%",
            "Cataloguing [60 %]: Object numbers [30 %], Describing [70 %]; Ethics [40 %]"
        },
        {
            "numbers in a column of their own",
            "No.\tDomain\tWeight\n1\tCataloguing\t60%\n2\tEthics\t40%",
            "Cataloguing [60 %]; Ethics [40 %]"
        },
        {
            "domains with bullets",
            "Domain 1: Cataloguing (60 %)\n• Object numbers\n• Describing\nDomain 2: Ethics (40 %)\n• Ownership\n– see also: codes",
            "Cataloguing [60 %]: Object numbers, Describing; Ethics [40 %]: Ownership"
        },
        {
            "parts that are topics",
            "Part I – Cataloguing 60%\nPart II – Ethics 40%",
            "Cataloguing [60 %]; Ethics [40 %]"
        },
        {
            "parts that are sections",
            "Part 1: Care of collections (75 items)\n1. Cataloguing 60%\n2. Conservation 40%\nPart 2: Documents and law (55 items)\n1. Loans 70%\n2. Ethics 30%",
            "Care of collections, 75 items: Cataloguing [60 %]; Conservation [40 %] || Documents and law, 55 items: Loans [70 %]; Ethics [30 %]"
        },
        {
            "names broken in two",
            "I. Cataloguing, object numbers and\ntheir marking 60%\nII. Preventive conser-\nvation of paper 25%\nIII. Ethics 15%",
            "Cataloguing, object numbers and their marking [60 %]; Preventive conservation of paper [25 %]; Ethics [15 %]"
        },
        {
            "a name that goes on after its weight",
            "Cataloguing and numbering 60%\nof small objects\nEthics 40%",
            "Cataloguing and numbering of small objects [60 %]; Ethics [40 %]"
        },
        {
            "a weight on a line of its own",
            "Cataloguing\n60 %\nEthics\n40 %",
            "Cataloguing [60 %]; Ethics [40 %]"
        },
        {
            "all names, then all weights",
            "Cataloguing\nConservation\nEthics\n50%\n30%\n20%",
            "Cataloguing [50 %]; Conservation [30 %]; Ethics [20 %]"
        },
        {
            "header, footer, total and page numbers",
            "Guild of Small-Museum Registrars\nContent outline\nTopic   Percentage of exam\nCataloguing   60%\nPage 7 of 12\nGuild of Small-Museum Registrars\n© 2026 Guild\nEthics   40%\nTotal   100%\nwww.guild.example",
            "Cataloguing [60 %]; Ethics [40 %]"
        },
        {
            "subtopics set in, without numbers",
            "Cataloguing 60%\n    Object numbers\n    Describing\nEthics 40%\n    Ownership",
            "Cataloguing [60 %]: Object numbers, Describing; Ethics [40 %]: Ownership"
        },
        {
            "subtopics in a second column",
            "Cataloguing\t\t60%\n\tObject numbers\t30%\n\tDescribing\t70%\nEthics\t\t40%",
            "Cataloguing [60 %]: Object numbers [30 %], Describing [70 %]; Ethics [40 %]"
        },
        {
            "bare numbers that are items",
            "Cataloguing 22\nConservation 21\nHandling 18",
            "61 items: Cataloguing [22 items]; Conservation [21 items]; Handling [18 items]"
        },
        {
            "names that end in a number",
            "Appendix 3 60%\nRules of 1972 40%",
            "Appendix 3 [60 %]; Rules of 1972 [40 %]"
        },
        {
            "no weights at all",
            "1. Cataloguing\n2. Ethics",
            "Cataloguing; Ethics"
        },
        {
            "a third level",
            "1. Cataloguing 100%\n1.1 Object numbers\n1.1.1 Ink\n1.1.2 Labels",
            "Cataloguing [100 %]: Object numbers"
        },
        {
            "Windows line ends, hard spaces and zero-width characters",
            "Cata\u200Bloguing\u00A0\u00A060\u00A0%\r\nEthics\u00A0\u00A040\u202F%\r\n",
            "Cataloguing [60 %]; Ethics [40 %]"
        },
        {
            "markup in a name stays text",
            "<script>alert(1)</script>\t60%\n\"><img src=x onerror=alert(2)>\t40%",
            "<script>alert(1)</script> [60 %]; \"><img src=x onerror=alert(2)> [40 %]"
        },
    };

    [Theory]
    [MemberData(nameof(Shapes))]
    public void A_table_is_understood(string shape, string text, string expected)
    {
        PastedTable table = PastedTable.Read(text);
        Assert.True(expected == Shown(table), $"{shape}:\n{Shown(table)}\n{string.Join('\n', table.Lines)}");

        // Every line with anything on it is accounted for.
        string[] filled = text.ReplaceLineEndings("\n").Split('\n');
        Assert.Equal(Enumerable.Range(1, filled.Length).Where(n => filled[n - 1].Trim().Length > 0), table.Lines.Select(l => l.Number));
        Assert.All(table.Lines.Where(l => l.Use == PastedUse.NotUsed), l => Assert.NotEqual("", l.Remark));
    }

    [Theory]
    [InlineData("Cataloguing 60%\nEthics 30%", "The topics sum to 90 %, and 100 is needed: a line may be missing or one too many.")]
    [InlineData("Cataloguing 60%\nEthics 30-45%", "The topics sum to 90 to 105 %.")]
    [InlineData("Cataloguing (22 items)\nEthics (20 items)\nTotal (50 items)", "Line 3 says that there are 50 items in all; the topics sum to 42.")]
    [InlineData("1. Cataloguing 60%\n2. Ethics\n3. Law 40%", "1 of 3 topics have no weight: Ethics.")]
    [InlineData("Cataloguing 60%\nEthics (20 items)", "The topics have weights in percent and in items; one unit is needed for all of them.")]
    [InlineData("Cataloguing 60\nEthics 40", "The figures have no unit. They sum to about 100, so they were taken for percent.")]
    public void Sums_are_checked(string text, string finding) => Assert.Contains(finding, PastedTable.Read(text).Findings);

    [Theory]
    [InlineData("Cataloguing up to 60%\nEthics 40%", 1, "'up to 60%' is a limit and no figure; give a weight yourself.")]
    [InlineData("Cataloguing\t15-20 items\nEthics\t20 items", 1, "'15-20 items' is a range of items; give one number of items, or percentages.")]
    [InlineData("Cataloguing\t=SUM(B2:B9)\nEthics\t40%", 1, "'=SUM(B2:B9)' is a formula; paste the values.")]
    [InlineData("Cataloguing 60%\nThe exam is held twice a year in the town hall of Lower Marsh.\nEthics 40%", 2, "It reads like a sentence, not like a name.")]
    [InlineData("Candidate handbook\nCataloguing 60%\nEthics 40%", 1, "It has no weight and comes before the first topic.")]
    [InlineData("Cataloguing\n60%\n40%", 2, "A weight without a name beside it; put it in yourself.")]
    [InlineData("Cata\u0007loguing 60%\nEthics 40%", 1, "Characters that cannot be printed were left out.")]
    public void What_cannot_be_used_is_said_with_its_reason(string text, int line, string remark)
        => Assert.Equal(remark, Assert.Single(PastedTable.Read(text).Lines, l => l.Number == line).Remark);

    [Theory]
    [InlineData("", "There is nothing to read yet")]
    [InlineData(" \n\t\n", "There is nothing to read yet")]
    [InlineData("Page 1 of 2\n© 2026", "No topic was found")]
    public void A_text_without_topics_is_refused(string text, string problem) => Assert.StartsWith(problem, PastedTable.Read(text).Problem, StringComparison.Ordinal);

    [Fact]
    public void A_megabyte_is_refused_and_not_read()
    {
        Assert.Contains("1,048,576 characters", PastedTable.Read(new string('a', 1 << 20)).Problem, StringComparison.Ordinal);
        Assert.Contains("2,001 lines", PastedTable.Read(string.Concat(Enumerable.Repeat("a 1%\n", 2000))).Problem, StringComparison.Ordinal);
        Assert.Equal(PastedUse.NotUsed, Assert.Single(PastedTable.Read(new string('9', 150_000)).Lines).Use);
    }

    [Fact]
    public void Any_text_is_read_without_failing_and_every_line_is_accounted_for()
    {
        Gen<string> pieces = Pick("I. ", "A. ", "1.1 ", "Domain 2: ", "• ", "Cataloguing", "and ", "ethics ", "30%", "15–20 %", " to ", "(22 items)", "\t", "  ", ";", ",", "|", "\n", "\n", "Total", "=", "\"", "\0", "\u202e", "...", "-", "9999", "%", "0.3", "Page 3", "Part 1 ");
        pieces.Array[0, 60].Select(p => string.Concat(p)).Sample(
            text =>
            {
                PastedTable table = PastedTable.Read(text);
                return (table.Sections.IsEmpty == table.Problem is not null)
                    && table.Lines.Count(l => l.Use == PastedUse.Topic) == table.Sections.Sum(s => s.Topics.Length)
                    && table.Lines.Count(l => l.Use == PastedUse.Subtopic) == table.Sections.Sum(s => s.Topics.Sum(t => t.Subtopics.Length))
                    && table.Lines.All(l => l.Use != PastedUse.NotUsed || l.Remark.Length > 0);
            },
            iter: 5000);
    }

    [Fact]
    public void A_long_table_of_long_lines_is_read_in_time()
    {
        StringBuilder text = new();
        for (int i = 0; i < 900; i++)
        {
            text.Append(' ', i % 7).Append("1 ( - and ").Append('.', 100).Append(" 12 ~ 13 ").Append('(', 60).Append('\n');
        }

        System.Diagnostics.Stopwatch watch = System.Diagnostics.Stopwatch.StartNew();
        PastedTable.Read(text.ToString());
        Assert.True(watch.Elapsed < TimeSpan.FromSeconds(5), $"{watch.Elapsed}");
    }

    private static string Shown(PastedTable table) => string.Join(" || ", table.Sections.Select(s =>
    {
        string head = string.Join(", ", new[] { s.Name, s.ScoredItems.Length > 0 ? s.ScoredItems + " items" : "" }.Where(t => t.Length > 0));
        return (head.Length > 0 ? head + ": " : "") + string.Join("; ", s.Topics.Select(Shown));
    }));

    private static string Shown(TopicDraft topic)
        => topic.Name + Weight(topic.Weight) + (topic.Subtopics.IsEmpty ? "" : ": " + string.Join(", ", topic.Subtopics.Select(p => p.Name + Weight(p.Weight))));

    private static Gen<T> Pick<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static string Weight(string weight) => weight.Length == 0 ? "" : $" [{weight}]";
}
