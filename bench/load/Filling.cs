using System.Collections.Immutable;
using System.Globalization;
using System.Text;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;
using Homestretch.Files;
using Homestretch.Files.Documents;
using Homestretch.Files.Evidences;
using Homestretch.Files.Exams;
using Homestretch.Files.FreeTimes;
using Homestretch.Files.StudyLogs;
using Homestretch.Store;
using Homestretch.Web.Candidates;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Load;

/// <summary>Fills a database with invented candidates for the demo's exam: a diagnostic item by item, free time, a kept plan, a few sessions of last week, and a personal link each.</summary>
internal static class Filling
{
    // Plans are costly to make, so this many people of different results and free time are planned, and the others are like one of them under another name.
    private const int Kinds = 48;

    private const int AtOnce = 250;

    private const string PlaceOfName = "Nobody Yet";

    private static readonly string[] _windows = ["19:00-20:30", "18:30-20:00", "18:00-21:00", "12:15-13:00", "20:00-22:00"];

    /// <summary>The token of a candidate's pages; the same in every run, so that a folder can be used again.</summary>
    public static PersonalToken TokenOf(int number) => new(string.Create(CultureInfo.InvariantCulture, $"load-{number:0000000}-abcdefghijklmno"));

    /// <summary>The key of a candidate's case.</summary>
    public static string KeyOf(int number) => string.Create(CultureInfo.InvariantCulture, $"load-{number:0000000}");

    /// <summary>Adds what is missing up to so many candidates.</summary>
    public static async Task FillAsync(CaseStore store, string examFile, int candidates, Instant now, Action<int> each, CancellationToken cancellation)
    {
        int here = (await store.ListAsync(cancellation)).Count;
        if (here >= candidates)
        {
            return;
        }

        byte[] content = await File.ReadAllBytesAsync(examFile, cancellation);
        Exam exam = ExamFile.Parse("exam.yaml", Encoding.UTF8.GetString(content)).Value ?? throw new InvalidOperationException("The demo's exam cannot be read.");
        Random random = new(20261128);
        Kind[] kinds = [.. Enumerable.Range(0, Kinds).Select(i => Make(exam, random, i, now))];
        StoredExam stored = new() { Key = "load-exam", Name = exam.Name, Versions = [new StoredExamVersion { At = now, Name = "exam.yaml", Content = content }] };
        for (int first = here; first < candidates; first += AtOnce)
        {
            StoredCase[] some = [.. Enumerable.Range(first, Math.Min(AtOnce, candidates - first)).Select(i => CaseOf(kinds[i % Kinds], i, now))];
            if ((await store.AddAllAsync(stored, some, cancellation)).Count > 0)
            {
                throw new InvalidOperationException("These candidates are here already; fill another folder.");
            }

            each(first + some.Length);
        }
    }

    private static Kind Make(Exam exam, Random random, int number, Instant now)
    {
        LocalDate today = now.InUtc().Date;
        double level = 0.35 + (0.5 * random.NextDouble());
        StringBuilder evidence = new("candidate,attempt,kind,date,topic,item,correct\n");
        int item = 0;
        foreach (ExamTopic topic in exam.Topics)
        {
            for (int i = 0; i < 6; i++)
            {
                string correct = random.NextDouble() < level ? "yes" : "no";
                evidence.Append(CultureInfo.InvariantCulture, $"{PlaceOfName},diagnostic,diagnostic,{LocalDatePattern.Iso.Format(today.PlusDays(-12))},{topic.Name},{++item},{correct}\n");
            }
        }

        string free = "zone: Europe/London\nweekly:\n" + string.Concat(Enumerable.Range(0, 3 + (number % 3)).Select(i =>
        {
            string[] span = _windows[random.Next(_windows.Length)].Split('-');
            return $"  - {{day: {(IsoDayOfWeek)(1 + ((i * 2) % 7))}, from: {span[0]}, to: {span[1]}}}\n";
        }));
        EvidenceSheet sheet = EvidenceFile.Parse("evidence", Encoding.UTF8.GetBytes(evidence.ToString()), exam).Value ?? throw new InvalidOperationException("The invented evidence cannot be read.");
        FreeTime time = FreeTimeFile.Parse("free", free).Value ?? throw new InvalidOperationException("The invented free time cannot be read.");
        ZonedDateTime from = (now - Duration.FromDays(3)).InZone(time.Zone);
        LocalDate examDay = today.PlusDays(8 + (number * 37 % 50));
        StudiedCandidate person = new(exam, PlaceOfName, sheet.Attempts, null);
        CandidateStanding standing = person.On(from.Date).Standing;
        StudyPlan plan = Planner.Plan(standing, time, [], from, examDay);
        CandidateReport report = new(PlaceOfName, standing, person.Basis, ForecastCalculator.Calculate(standing), WorthCalculator.NextMinutes(standing), plan);
        PlanDocument document = PlanDocument.Of(report);
        return new(evidence.ToString(), free, examDay, from.ToInstant(), DocumentJson.Write(document), [.. document.Blocks.Where(b => PlanDocument.Time(b.Start).ToInstant() < now)]);
    }

    private static StoredCase CaseOf(Kind kind, int number, Instant now)
    {
        string name = string.Create(CultureInfo.InvariantCulture, $"{_given[number % _given.Length]} {_family[number / _given.Length % _family.Length]} {number}");
        PersonalToken token = TokenOf(number);
        return new StoredCase
        {
            Key = KeyOf(number),
            Candidate = name,
            ExamDay = kind.ExamDay,
            CreatedAt = kind.PlannedAt,
            Files = [new StoredFile { At = kind.PlannedAt, Origin = Origin.File, OriginFile = "free.yaml", Role = FileRole.FreeTime, Name = "free.yaml", Content = Encoding.UTF8.GetBytes(kind.Free) }],
            Evidence = [.. KeptRows.Evidence("evidence.csv", Encoding.UTF8.GetBytes(kind.Evidence.Replace(PlaceOfName, name, StringComparison.Ordinal)), kind.PlannedAt).Value!],
            Sessions =
            [
                .. kind.Past.Where((_, i) => (i + number) % 3 != 0).Select(b => new StudyRow
                {
                    At = now,
                    Origin = Origin.Candidate,
                    Outcome = StudyOutcome.Done,
                    Candidate = name,
                    Date = LocalDatePattern.Iso.Format(PlanDocument.Time(b.Start).Date),
                    Topic = b.Topic,
                    Minutes = b.Minutes.ToString(CultureInfo.InvariantCulture),
                    How = b.Purpose,
                    Block = b.Id,
                    PlannedStart = b.Start,
                    PlannedMinutes = b.Minutes,
                }),
            ],
            Plans = [new PlanVersion { At = kind.PlannedAt, Origin = Origin.Program, Why = "Your first plan.", Document = kind.Plan.Replace(PlaceOfName, name, StringComparison.Ordinal) }],
            Links = number % 10 == 9 ? [] : [new PersonalLink { At = kind.PlannedAt, Origin = Origin.Coach, PageHash = PersonalToken.Hash(token.Page), FeedHash = PersonalToken.Hash(token.Feed) }],
        };
    }

    private static readonly string[] _given = ["Abel", "Brisa", "Corin", "Delphe", "Edda", "Fenn", "Gilda", "Hale", "Isolt", "Joss", "Kester", "Linnet", "Merrin"];

    private static readonly string[] _family = ["Amberlow", "Brackwater", "Cindermoor", "Dovesey", "Eastwick-Thorn", "Fallowby", "Gorsefield", "Hollowbrook", "Ivelcombe"];

    private sealed record Kind(string Evidence, string Free, LocalDate ExamDay, Instant PlannedAt, string Plan, ImmutableArray<BlockFields> Past);
}
