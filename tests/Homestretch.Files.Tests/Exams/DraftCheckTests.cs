using Homestretch.Files.Exams;
using Homestretch.Files.Exams.Editing;

namespace Homestretch.Files.Tests.Exams;

/// <summary>What is wrong in a form stands at the field it is about, in the words of the exam file.</summary>
public class DraftCheckTests
{
    private static ExamDraft Good => ExamDraft.Of(ExamFile.Read(TestFiles.Demo("exam.yaml")).Value!);

    [Fact]
    public void A_good_form_makes_its_exam()
    {
        DraftCheck check = DraftCheck.Of(Good);
        Assert.Empty(check.Problems);
        Assert.Equal("Certificate for Registrars of Small Museums", check.Exam!.Name);
        SectionSum first = check.Sums[0];
        Assert.Equal(("Care of collections", 75, 10, 105, false, 100.0, 100.0), (first.Name, first.ScoredItems, first.UnscoredItems, first.Minutes, first.WeightsInItems, first.LowSum, first.HighSum));
        Assert.Equal([.. check.Exam.Sections[0].Topics.Select(t => (t.Name, (int?)t.Items))], first.Topics.AsEnumerable());
        Assert.Equal(("Emergency plans", 13), first.Smallest);
        Assert.Equal(105 / 85.0, first.MinutesPerItem);
    }

    [Theory]
    [InlineData(DraftField.Name, "exam: there is no value; give the name of the exam.")]
    [InlineData(DraftField.SourceDate, "source, date: there is no value; give a date written year-month-day, such as 2026-02-01.")]
    [InlineData("s0-scored", "section 'Care of collections', scored-items: there is no value; give a whole number of items from 1 to 2000.")]
    [InlineData("s1-options", "section 'Documents and law', options: there is no value; give the options to choose from per item, 2 to 20, or 'none' where answers are written.")]
    [InlineData("s0-cut-mark", "section 'Care of collections': 'pass' is missing; the rule 'every section' needs a cut score for each section, such as pass: {percent: 65}.")]
    [InlineData("s1-name", "section 2, name: there is no value; give the name of the section.")]
    [InlineData("s0-t1-name", "topic 2, name: there is no value; give the name of the topic.")]
    [InlineData("s0-t1-weight", "topic 'Preventive conservation', weight: there is no value; give a weight such as '18 items', '30 %' or '25-35 %'.")]
    [InlineData("s0-t1-p2-name", "topic 'Preventive conservation', subtopic 3, name: there is no value; give the name of the subtopic.")]
    [InlineData("s0-t1-p2-weight", "subtopic 'Storage materials': 'weight' is missing; give every subtopic of topic 'Preventive conservation' a weight, or none of them.")]
    public void A_field_left_empty_is_named(string field, string text)
    {
        DraftCheck check = DraftCheck.Of(With(Good, field, ""));
        Assert.Null(check.Exam);
        Assert.Equal(new DraftProblem(field, text), Assert.Single(check.Problems, p => p.Field == field));
    }

    [Theory]
    [InlineData("s0-scored", "many", "s0-scored")]
    [InlineData("s0-minutes", "0", "s0-minutes")]
    [InlineData("s0-unscored", "-1", "s0-unscored")]
    [InlineData("s0-options", "1", "s0-options")]
    [InlineData("s0-cut-mark", "650", "s0-cut-mark")]
    [InlineData("s0-cut-kind", "", "s0-cut-kind")]
    [InlineData("s0-cut-kind", "luck", "s0-cut-kind")]
    [InlineData("s0-t0-weight", "30", "s0-t0-weight")]
    [InlineData("s0-t0-weight", "300 %", "s0-t0-weight")]
    [InlineData("s0-t0-weight", "20 %", "s0-topics")]
    [InlineData("s0-t0-weight", "20 items", "s0-t1-weight")]
    [InlineData("s0-t1-p0-weight", "30 %", "s0-t1-subtopics")]
    [InlineData("s0-t2-name", "cataloguing", "s0-t2-name")]
    [InlineData("s1-name", "CARE of collections", "s1-name")]
    [InlineData(DraftField.SourceDate, "2026-02-30", DraftField.SourceDate)]
    [InlineData(DraftField.WaitingDays, "soon", DraftField.WaitingDays)]
    [InlineData(DraftField.AttemptsPerYear, "0", DraftField.AttemptsPerYear)]
    [InlineData(DraftField.WeakBelow, "50", DraftField.StrongFrom)]
    [InlineData(DraftField.Rule, "total", "total-mark")]
    [InlineData(DraftField.Rule, "luck", DraftField.Rule)]
    [InlineData(DraftField.Name, "a\u0001b", DraftField.Name)]
    public void A_mistake_stands_at_its_field(string field, string value, string place)
    {
        DraftCheck check = DraftCheck.Of(With(Good, field, value));
        Assert.Null(check.Exam);
        Assert.Contains(place, check.Problems.Select(p => p.Field));
        Assert.DoesNotContain(check.Problems, p => p.Text.Contains(" line ", StringComparison.Ordinal));
    }

    [Fact]
    public void A_name_used_twice_says_where_it_stands_first()
        => Assert.Contains(", first as topic 1 of section 1;", Assert.Single(DraftCheck.Of(With(Good, "s1-t0-name", "Cataloguing")).Problems).Text, StringComparison.Ordinal);

    [Fact]
    public void Rows_in_which_nothing_was_typed_count_for_nothing()
    {
        ExamDraft good = Good;
        SectionDraft first = good.Sections[0];
        ExamDraft loose = good with { Sections = good.Sections.SetItem(0, first with { Topics = [TopicDraft.Blank, .. first.Topics, TopicDraft.Blank] }) };
        Assert.Equal(DraftCheck.Of(good).Text, DraftCheck.Of(loose).Text);

        // And problems still stand at the row that the person sees.
        Assert.Equal("s0-t2-weight", Assert.Single(DraftCheck.Of(With(loose, "s0-t2-weight", "x")).Problems).Field);
    }

    [Fact]
    public void A_form_with_nothing_in_it_says_what_is_missing()
    {
        DraftCheck check = DraftCheck.Of(ExamDraft.Blank);
        Assert.Equal([DraftField.Name, "s0-name", "s0-cut-mark", "s0-scored", "s0-topics"], check.Problems.Select(p => p.Field));
        Assert.Equal(DraftField.Sections, Assert.Single(DraftCheck.Of(new ExamDraft { Name = "x", Rule = "every section" }).Problems).Field);
    }

    [Fact]
    public void A_table_of_scaled_scores_is_typed_line_by_line()
    {
        ExamDraft draft = With(Good, "s0-cut-kind", CutDraft.Scaled);
        draft = With(draft, "s0-cut-mark", "500");
        draft = With(draft, "s0-cut-table", "0 200\n\n49; 500\n75, 800");
        Assert.Equal(49, DraftCheck.Of(draft).Exam!.Sections[0].Cut!.RequiredCorrect(75));
        Assert.Equal("s0-cut-table", Assert.Single(DraftCheck.Of(With(draft, "s0-cut-table", "0 200\nmany 500")).Problems).Field);
    }

    [Fact]
    public void Sums_are_shown_also_where_something_is_wrong()
    {
        SectionSum sum = DraftCheck.Of(With(Good, "s0-t0-weight", "")).Sums[0];
        Assert.Equal((1, 70.0), (sum.Unreadable, sum.LowSum));
        Assert.Null(sum.Smallest);
    }

    // Sets the field that a form would call so.
    private static ExamDraft With(ExamDraft draft, string field, string value)
    {
        if (field[0] != 's' || !char.IsAsciiDigit(field[1]))
        {
            return field switch
            {
                DraftField.Name => draft with { Name = value },
                DraftField.SourceDate => draft with { SourceDate = value },
                DraftField.WaitingDays => draft with { WaitingDays = value },
                DraftField.AttemptsPerYear => draft with { AttemptsPerYear = value },
                DraftField.WeakBelow => draft with { WeakBelow = value, StrongFrom = value },
                DraftField.Rule => draft with { Rule = value },
                _ => throw new ArgumentOutOfRangeException(nameof(field)),
            };
        }

        string[] parts = field.Split('-');
        int s = parts[0][1] - '0';
        SectionDraft section = draft.Sections[s];
        if (parts[1] is ['t', var number] && char.IsAsciiDigit(number))
        {
            int t = number - '0';
            TopicDraft topic = section.Topics[t];
            topic = parts switch
            {
                [_, _, ['p', var part], "name"] => topic with { Subtopics = topic.Subtopics.SetItem(part - '0', topic.Subtopics[part - '0'] with { Name = value }) },
                [_, _, ['p', var part], "weight"] => topic with { Subtopics = topic.Subtopics.SetItem(part - '0', topic.Subtopics[part - '0'] with { Weight = value }) },
                [_, _, "name"] => topic with { Name = value },
                [_, _, "weight"] => topic with { Weight = value },
                _ => throw new ArgumentOutOfRangeException(nameof(field)),
            };
            section = section with { Topics = section.Topics.SetItem(t, topic) };
        }
        else
        {
            section = parts switch
            {
                [_, "name"] => section with { Name = value },
                [_, "scored"] => section with { ScoredItems = value },
                [_, "unscored"] => section with { UnscoredItems = value },
                [_, "minutes"] => section with { Minutes = value },
                [_, "options"] => section with { Options = value },
                [_, "cut", "kind"] => section with { Cut = section.Cut with { Kind = value } },
                [_, "cut", "mark"] => section with { Cut = section.Cut with { Mark = value } },
                [_, "cut", "table"] => section with { Cut = section.Cut with { Table = value } },
                _ => throw new ArgumentOutOfRangeException(nameof(field)),
            };
        }

        return draft with { Sections = draft.Sections.SetItem(s, section) };
    }
}
