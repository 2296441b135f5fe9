using System.Collections.Immutable;

using Homestretch.Core.Evidence;

namespace Homestretch.Core.Laboratory;

/// <summary>All that is the same for one candidate under every policy: the person, the calendar, the luck.</summary>
internal sealed class CandidateCourse
{
    private const int DaysSinceOfficial = 30;
    private const int BandsInReport = 5;
    private const int EarlierExam = TestSource.ExamTest + 1;
    private const int MostTries = 100;

    private readonly double[][] drift;

    private CandidateCourse(ScenarioWorld world, int candidate, Setting setting, Person person, Attempt firstEvidence)
    {
        Candidate = candidate;
        Setting = setting;
        Person = person;
        FirstEvidence = firstEvidence;
        drift = Drift(world, candidate);
        Missed = Absent(world, candidate);
    }

    public int Candidate { get; }

    public Setting Setting { get; }

    public Person Person { get; }

    /// <summary>The diagnostic, or the official report.</summary>
    public Attempt FirstEvidence { get; }

    /// <summary>For each slot, whether the session in it would be missed.</summary>
    public bool[] Missed { get; }

    /// <summary>Ability on a topic without what study has added, on the first day (0), at the quizzes (from 1), at the exam (last).</summary>
    public double AbilityAt(int checkpoint, int topic) => Person.Abilities[topic] + drift[checkpoint][topic];

    public static CandidateCourse Draw(ScenarioWorld world, int candidate)
    {
        Setting setting = world.Draw(candidate);
        int topics = setting.World.Curves.Length;
        int[] correct = new int[topics];
        bool retaker = world.Scenario.BandsOnly;
        int[] items = retaker ? setting.World.TrueItems : setting.World.DiagnosticItems;
        int daysBefore = retaker ? DaysSinceOfficial : 1;
        for (int attempt = 0; ; attempt++)
        {
            Person person = Person.Draw(world.Scenario.People, topics, world.Seed, candidate, attempt);
            AnswerEarlier(world, candidate, setting, person, daysBefore, retaker ? EarlierExam + attempt : -attempt, items, correct);
            if (IsMet(world.Scenario, setting.World, items, correct) || attempt == MostTries)
            {
                return new(world, candidate, setting, person, Report(retaker ? AttemptKind.Official : AttemptKind.Diagnostic, setting, daysBefore, items, correct));
            }
        }
    }

    // Selecting people by what everyone has seen leaves a forecast from the same evidence as right as it was.
    private static bool IsMet(Scenario scenario, ExamWorld exam, int[] items, int[] correct)
    {
        if (scenario.BandsOnly && exam.Passes(correct))
        {
            return false;
        }

        double share = (double)correct.Sum() / items.Sum();
        double cut = (double)exam.Exam.RequiredCorrect / exam.Exam.ScoredItems;
        return scenario.NearCut is not { } near || Math.Abs(share - cut) <= near;
    }

    private static void AnswerEarlier(ScenarioWorld world, int candidate, Setting setting, Person person, int daysBefore, int test, int[] items, int[] correct)
    {
        RandomSequence random = new(world.Seed, Draws.Drift, candidate, test);
        double sd = Math.Sqrt(daysBefore * world.Scenario.People.DriftVariancePerDay);
        double[] then = Array.ConvertAll(person.Abilities, a => a + (sd * random.Normal()));
        world.Scenario.Tests.Answer(setting.World, new Sitting(world.Seed, candidate, test), then, items, correct);
    }

    private static Attempt Report(AttemptKind kind, Setting setting, int daysBefore, int[] items, int[] correct)
    {
        ImmutableArray<Observation>.Builder observations = ImmutableArray.CreateBuilder<Observation>(items.Length);
        for (int t = 0; t < items.Length; t++)
        {
            string topic = setting.World.Exam.Topics[t].Name;
            int band = Math.Min(BandsInReport - 1, BandsInReport * correct[t] / Math.Max(1, items[t]));
            int low = ((band * items[t]) + BandsInReport - 1) / BandsInReport;
            int high = band == BandsInReport - 1 ? items[t] : ((((band + 1) * items[t]) + BandsInReport - 1) / BandsInReport) - 1;
            observations.Add(kind == AttemptKind.Official ? new TopicCount(topic, null, low, high, items[t]) : TopicCount.Exact(topic, correct[t], items[t]));
        }

        return new Attempt("", "before", kind, setting.Time.From.PlusDays(-daysBefore), observations.ToImmutable());
    }

    private double[][] Drift(ScenarioWorld world, int candidate)
    {
        int[] days = [0, .. Setting.Time.QuizDays, Setting.Time.Days];
        double[][] sums = new double[days.Length][];
        sums[0] = new double[Person.Abilities.Length];
        for (int i = 1; i < days.Length; i++)
        {
            RandomSequence random = new(world.Seed, Draws.Drift, candidate, i);
            double sd = Math.Sqrt((days[i] - days[i - 1]) * world.Scenario.People.DriftVariancePerDay);
            sums[i] = Array.ConvertAll(sums[i - 1], before => before + (sd * random.Normal()));
        }

        return sums;
    }

    private bool[] Absent(ScenarioWorld world, int candidate)
    {
        bool[] missed = new bool[Setting.Time.Slots.Length];
        if (world.Scenario.Absences is { } absences)
        {
            RandomSequence random = new(world.Seed, Draws.Attendance, candidate);
            bool ill = random.Uniform() < absences.SpellChance;
            int from = random.Below(Setting.Time.Days);
            int to = from + absences.SpellDays;
            for (int i = 0; i < missed.Length; i++)
            {
                int day = Setting.Time.Day[i];
                missed[i] = random.Uniform() < absences.Share || (ill && day >= from && day < to);
            }
        }

        return missed;
    }
}
