using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Files.Pictures;
using Homestretch.Store;
using Homestretch.Web.Cases;
using Homestretch.Web.Keeping;
using Homestretch.Web.Uploads;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Web.Afterwards;

/// <summary>An official result as a coach typed it.</summary>
/// <param name="Date">The day of the exam, as typed.</param>
/// <param name="Passed">Whether it was passed; null where nothing was chosen.</param>
/// <param name="Score">The score, as the report gives it.</param>
/// <param name="Topics">What the report says of each topic, in the exam's order; empty where it says nothing.</param>
public sealed record ResultEntry(string Date, bool? Passed, string Score, ImmutableArray<string> Topics)
{
    /// <summary>Field of the day.</summary>
    public const string DateField = "date";

    /// <summary>Field of the outcome.</summary>
    public const string PassedField = "passed";

    /// <summary>Field of the score.</summary>
    public const string ScoreField = "score";

    // Reports come within weeks; an older day is a slip.
    private const int MostYearsBack = 2;

    private const int MostShown = 60;

    /// <summary>Field of a topic.</summary>
    public static string FieldOf(int topic) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"topic-{topic}");

    /// <summary>The fields of a form.</summary>
    public static ResultEntry Of(Func<string, string> field, Exam exam)
    {
        ArgumentNullException.ThrowIfNull(field);
        ArgumentNullException.ThrowIfNull(exam);
        return new(
            field(DateField).Trim(),
            field(PassedField) switch { "yes" => true, "no" => false, _ => null },
            field(ScoreField).Trim(),
            [.. exam.Topics.Select((_, i) => field(FieldOf(i)).Trim())]);
    }

    /// <summary>The entry as the part of an address, so that it stands there again when something is to be mended.</summary>
    public string Query => string.Join('&', Fields.Where(f => f.Text.Length > 0).Select(f => $"{f.Name}={Uri.EscapeDataString(f.Text.Length > MostShown ? f.Text[..MostShown] : f.Text)}").Prepend("entered=yes"));

    private IEnumerable<(string Name, string Text)> Fields =>
        [(DateField, Date), (PassedField, Passed switch { true => "yes", false => "no", _ => "" }), (ScoreField, Score), .. Topics.Select((t, i) => (FieldOf(i), t))];

    /// <summary>What must be mended before it can be kept.</summary>
    /// <param name="of">The case as read.</param>
    /// <param name="stored">The case as stored.</param>
    /// <param name="today">The day of entering.</param>
    public ImmutableArray<UploadProblem> Problems(ReadCase of, StoredCase stored, LocalDate today)
    {
        ImmutableArray<UploadProblem> problems = Typed(today);
        if (!problems.IsEmpty || Rows(of, default).ToArray() is not { Length: > 0 } rows)
        {
            return problems;
        }

        // The rows stand in the order of the exam's topics, after the line with the names of the columns.
        int[] topics = [.. Topics.Index().Where(t => t.Item.Length > 0).Select(t => t.Index)];
        return [.. KeptRoutes.Problems(stored, [new NamedFile(FileRole.Evidence, ResultRoutes.Attempt, KeptRows.EvidenceText(rows))])
            .Select(p => p.File == ResultRoutes.Attempt && p.Line - 2 is var at and >= 0 && at < topics.Length
                ? new UploadProblem(FieldOf(topics[at]), $"{of.Exam.Topics[topics[at]].Name}: {p.Message}")
                : new UploadProblem(DateField, p.Message))];
    }

    private ImmutableArray<UploadProblem> Typed(LocalDate today)
    {
        List<UploadProblem> problems = [];
        ParseResult<LocalDate> day = LocalDatePattern.Iso.Parse(Date);
        if (!day.Success || day.Value > today || day.Value < today.PlusYears(-MostYearsBack))
        {
            problems.Add(new(DateField, $"Exam day: give the day on which the exam was sat, between {Dates.FullDay(today.PlusYears(-MostYearsBack))} and today."));
        }

        if (Passed is null)
        {
            problems.Add(new(PassedField, "Say whether the exam was passed."));
        }

        if (Score.Length > ResultRoutes.MostScoreLength)
        {
            problems.Add(new(ScoreField, $"Score: at most {ResultRoutes.MostScoreLength} characters, such as '78 of 110' or '540'."));
        }

        problems.AddRange(Topics.Index().Where(t => t.Item.Length > 0 && ReportedFigure.Read(t.Item) is null)
            .Select(t => new UploadProblem(FieldOf(t.Index), $"'{(t.Item.Length > MostShown ? t.Item[..MostShown] + "…" : t.Item)}' will not do; write {ReportedFigure.Accepted}, or leave it empty.")));
        return [.. problems];
    }

    /// <summary>The result. Only where there are no problems.</summary>
    public OfficialResult Result(Instant now, Origin origin) => new() { At = now, Origin = origin, Date = LocalDatePattern.Iso.Parse(Date).Value, Passed = Passed is true, Score = Score };

    /// <summary>The evidence in it, topic by topic. Only where there are no problems.</summary>
    public IEnumerable<EvidenceRow> Rows(ReadCase of, Instant now)
    {
        ArgumentNullException.ThrowIfNull(of);
        foreach ((int i, string text) in Topics.Index().Where(t => t.Item.Length > 0))
        {
            ReportedFigure figure = ReportedFigure.Read(text)!;
            yield return new EvidenceRow
            {
                At = now,
                Origin = Origin.Coach,
                Candidate = of.Candidate,
                Attempt = ResultRoutes.Attempt,
                Kind = "official",
                Date = Date,
                Topic = of.Exam.Topics[i].Name,
                Correct = figure.Correct,
                Items = figure.Items,
                Percent = figure.Percent,
                Band = figure.Band,
            };
        }
    }
}
