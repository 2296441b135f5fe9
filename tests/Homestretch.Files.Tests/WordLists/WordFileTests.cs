using System.Collections.Immutable;
using System.Text;

using Homestretch.Core.Words;
using Homestretch.Files.WordLists;

using NodaTime;

namespace Homestretch.Files.Tests.WordLists;

/// <summary>Files of words: the malformed ones under cases/words, odd but good ones, and the way there and back.</summary>
public class WordFileTests
{
    public static TheoryData<string> Malformed => TestFiles.CaseNames("words");

    /// <summary>Texts that a careless writer or reader would change: separators, quote marks, formulas, marks of text, other scripts, outcomes and strokes in terms.</summary>
    public static TheoryData<string> Awkward =>
    [
        "a, b; c | d", "say \"so\"", "\"", "=1+1", "-5", "- a dash", "+44", "@home", "'quoted'", "'=odd'", "'", "''=", "naïve", "用語", "knew", "a / b", "x=knew", "#", "0012", "1e5", "TRUE", "\ud83d\udddd key", "sep=;",
    ];

    [Theory]
    [MemberData(nameof(Malformed))]
    public void A_malformed_file_gives_clear_problems(string name)
    {
        string path = Path.Combine(TestFiles.Cases("words"), name + ".csv");

        ReadResult<WordList> result = WordFile.ReadAll([path], TestExams.Registrar);

        Assert.False(result.IsOk);
        Assert.All(result.Problems, p => Assert.Equal(path, p.File));
        ProblemChecks.Match(result.Problems, Path.ChangeExtension(path, ".expected.txt"));
    }

    [Theory]
    [MemberData(nameof(Awkward))]
    public void What_is_written_reads_back_the_same(string text)
    {
        LocalDate noted = new(2026, 11, 25);
        ImmutableArray<Word> words =
        [
            new(text, noted) { OwnDefinition = text, CoachDefinition = text, Topic = "Cataloguing", Answers = [new(noted, RecallOutcome.Knew), new(noted.PlusDays(1), RecallOutcome.Partly), new(noted.PlusDays(1), RecallOutcome.DidNotKnow)] },
            new("bare", noted.PlusDays(2)),
        ];

        string written = WordFile.Write(new WordList(words));
        ReadResult<WordList> read = Read(written);

        Assert.True(read.IsOk, string.Join('\n', read.Problems));
        Assert.Equal(words.Select(Shown), read.Value!.Words.Select(Shown));
        Assert.Equal(written, WordFile.Write(read.Value));
    }

    [Fact]
    public void A_spreadsheet_of_another_country_is_understood()
    {
        ReadResult<WordList> result = Read("\ufeffWord;Meaning;Coach's definition;Topic;Day;Recalls\r\nfrass; dust  of insects;;Preventive conservation;26.11.2026;28.11.2026 Yes; 27.11.2026 NO\r\n".Replace("28.11.2026 Yes; 27.11.2026 NO", "\"28.11.2026 Yes; 27.11.2026 NO\"", StringComparison.Ordinal));

        Assert.True(result.IsOk, string.Join('\n', result.Problems));
        Assert.Equal("frass | Preventive conservation | dust of insects |  | 2026-11-26 | 2026-11-27 DidNotKnow, 2026-11-28 Knew", Shown(Assert.Single(result.Value!.Words)));
    }

    [Fact]
    public void A_word_in_two_files_is_refused_with_both_places()
    {
        byte[] file = "term,noted\nfrass,2026-11-26\n"u8.ToArray();

        ReadResult<WordList> result = WordFile.ParseAll([("one.csv", file), ("two.csv", file)], TestExams.Registrar);

        FileProblem problem = Assert.Single(result.Problems);
        Assert.Equal(("two.csv", 2), (problem.File, problem.Line));
        Assert.Contains("in line 2 of one.csv", problem.Message, StringComparison.Ordinal);
    }

    private static ReadResult<WordList> Read(string text) => WordFile.ParseAll([("words.csv", Encoding.UTF8.GetBytes(text))], TestExams.Registrar);

    private static string Shown(Word word) => string.Join(" | ",
        word.Term, word.Topic, word.OwnDefinition, word.CoachDefinition, word.Noted.ToString("uuuu-MM-dd", null), string.Join(", ", word.Answers.Select(a => $"{a.Day:uuuu-MM-dd} {a.Outcome}")));
}
