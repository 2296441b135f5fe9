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

using NodaTime;

namespace Homestretch.Store.Tests;

/// <summary>Plans as they are really kept, of a small invented exam.</summary>
internal static class SamplePlan
{
    private const string ExamText = """
        exam: Small exam
        sections:
          - name: Whole
            scored-items: 40
            options: 4
            pass:
              percent: 60
            topics:
              - name: Law
                weight: 50 %
              - name: Handling
                weight: 50 %
        """;

    /// <summary>A plan from a moment on, with so many evenings a week.</summary>
    public static PlanDocument Document(Instant from, int evenings, LocalDate examDay)
    {
        Exam exam = ExamFile.Parse("exam.yaml", ExamText).Value ?? throw new InvalidOperationException(string.Join('\n', ExamFile.Parse("exam.yaml", ExamText).Problems));
        EvidenceSheet sheet = EvidenceFile.Parse(
            "a.csv", Encoding.UTF8.GetBytes("candidate,attempt,kind,date,topic,correct,items\nAda,mock,diagnostic,2026-11-20,Law,9,20\nAda,mock,diagnostic,2026-11-20,Handling,13,20\n"), exam).Value!;
        FreeTime free = FreeTimeFile.Parse(
            "free.yaml", "zone: Europe/London\nweekly:\n" + string.Concat(Enumerable.Range(1, evenings).Select(d => $"  - {{day: {(IsoDayOfWeek)d}, from: 19:00, to: 21:00}}\n"))).Value!;
        StudiedCandidate person = new(exam, "Ada", sheet.Attempts, null);
        CandidateStanding standing = person.On(from.InUtc().Date).Standing;
        StudyPlan plan = Planner.Plan(standing, free, [], from.InZone(free.Zone), examDay);
        return PlanDocument.Of(new CandidateReport("Ada", standing, person.Basis, ForecastCalculator.Calculate(standing), WorthCalculator.NextMinutes(standing), plan));
    }

    /// <summary>The row of a plan.</summary>
    public static PlanVersion Row(PlanDocument document, Instant at) => new() { At = at, Origin = Origin.Program, Why = "Made.", Document = DocumentJson.Write(document) };

    /// <summary>Planned minutes on a day.</summary>
    public static int MinutesOn(PlanDocument document, LocalDate day) => document.Blocks.Where(b => PlanDocument.Time(b.Start).Date == day).Sum(b => b.Minutes);
}
