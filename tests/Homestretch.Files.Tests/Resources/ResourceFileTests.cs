using System.Text;

using Homestretch.Core.Planning.Resources;
using Homestretch.Files.Exams;
using Homestretch.Files.Resources;
using Homestretch.Files.Tests.Sheets;

using NodaTime;

namespace Homestretch.Files.Tests.Resources;

public class ResourceFileTests
{
    [Fact]
    public void A_catalogue_is_read_as_csv_and_as_a_spreadsheet()
    {
        const string Text = "title|kind|topics|minutes|edition|where\nLoans from A to Z|teaches|Loans and insurance; Title and ethics|120|2025|shelf 3\nItems|practice items|all||2026-02|\nTerms|Reference|Pests|30|2026-02-10|";
        ResourceCatalogue read = Sound(ResourceFile.Parse("r.xlsx", new TestWorkbook().Texts(Text).Bytes(), TestExams.Registrar));
        ResourceCatalogue csv = Sound(ResourceFile.Parse("r.csv", Encoding.UTF8.GetBytes(Text), TestExams.Registrar));
        Assert.Equal(
            ["Loans from A to Z Teaches Loans and insurance+Title and ethics 120 2025-12-31 shelf 3", "Items PracticeItems 8 topics  2026-02-28 ", "Terms Reference Preventive conservation 30 2026-02-10 "],
            read.Resources.Select(Line));
        Assert.Equal(read.Resources.Select(Line), csv.Resources.Select(Line));
    }

    [Theory]
    [InlineData(",teaches,Cataloguing,,", "column 'title' is empty")]
    [InlineData("A,teach,Cataloguing,,", "'teach' is no kind of resource; write teaches, practice items, practice exam or reference")]
    [InlineData("A,,Cataloguing,,", "column 'kind' is empty")]
    [InlineData("A,teaches,,,", "column 'topics' is empty")]
    [InlineData("A,teaches,Cataloguing; Catalogueing,,", "Did you mean 'Cataloguing'?")]
    [InlineData("A,teaches,Cataloguing,0,", "a whole number from 1 to 12000")]
    [InlineData("A,teaches,Cataloguing,2 h,", "column 'minutes': '2 h' will not do")]
    [InlineData("A,teaches,Cataloguing,,last year", "column 'edition': 'last year' is no year or date")]
    [InlineData("A,teaches,Cataloguing,,2026-13", "column 'edition'")]
    [InlineData("A,teaches,Cataloguing,,1850", "column 'edition'")]
    public void Every_fault_is_named(string row, string message)
    {
        ReadResult<ResourceCatalogue> read = ResourceFile.Parse("r.csv", Encoding.UTF8.GetBytes("title,kind,topics,minutes,edition\n" + row + "\n"), TestExams.Registrar);
        FileProblem problem = Assert.Single(read.Problems);
        Assert.Equal(2, problem.Line);
        Assert.Contains(message, problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_same_resource_twice_is_a_slip()
    {
        ReadResult<ResourceCatalogue> read = ResourceFile.Parse("r.csv", "title,kind,topics\nA,teaches,Cataloguing\nA,reference,Cataloguing\na,Teaches,Cataloguing\n"u8.ToArray(), TestExams.Registrar);
        Assert.Equal("'a' stands in line 2 already, with the same kind, topics and place; leave one out.", Assert.Single(read.Problems).Message);
    }

    [Fact]
    public void The_catalogue_of_the_demo_is_sound()
    {
        ResourceCatalogue demo = Sound(ResourceFile.Read(TestFiles.Demo("resources.csv"), ExamFile.Read(TestFiles.Demo("exam.yaml")).Value!));
        Assert.Equal(8, demo.Resources.Length);
        Assert.Equal(["Loans from A to Z", "Loan cases"], demo.Resources.Where(r => r.IsOlderThan(new LocalDate(2026, 2, 1))).Select(r => r.Title));
    }

    private static string Line(StudyResource r)
        => $"{r.Title} {r.Kind} {(r.Topics.Length > 3 ? $"{r.Topics.Length} topics" : string.Join('+', r.Topics))} {r.Minutes} {r.Edition:uuuu-MM-dd} {r.Where}";

    private static ResourceCatalogue Sound(ReadResult<ResourceCatalogue> read)
    {
        Assert.True(read.IsOk, string.Join('\n', read.Problems));
        return read.Value;
    }
}
