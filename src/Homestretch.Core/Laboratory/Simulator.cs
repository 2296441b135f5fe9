using System.Collections.Immutable;

using Homestretch.Core.Evidence;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;

using NodaTime;

namespace Homestretch.Core.Laboratory;

/// <summary>Lets candidates live through the weeks before the exam, once under each policy. One per thread.</summary>
internal sealed class Simulator(ScenarioWorld world, ImmutableArray<LaboratoryPolicy> policies)
{
    private readonly Scenario scenario = world.Scenario;
    private readonly Dictionary<ExamWorld, QuickStanding> standings = [];
    private readonly CandidateOutcome[] outcomes = new CandidateOutcome[policies.Length];

    /// <summary>What becomes of one candidate, in the order of the policies; valid until the next call.</summary>
    public ReadOnlySpan<CandidateOutcome> Run(int candidate)
    {
        CandidateCourse course = CandidateCourse.Draw(world, candidate);
        for (int p = 0; p < policies.Length; p++)
        {
            outcomes[p] = Run(course, policies[p]);
        }

        return outcomes;
    }

    private CandidateOutcome Run(CandidateCourse course, LaboratoryPolicy policy)
    {
        Setting setting = course.Setting;
        Learner learner = scenario.Learning.Start(course.Person, setting.World);
        Coach coach = new(course, policy, Standings(setting.World));
        int minutes = 0;
        double forecastAtPlan = 0;
        double[] abilities = new double[course.Person.Abilities.Length];
        int[] correct = new int[abilities.Length];
        int from = 0;
        for (int phase = 0; phase <= course.QuizDays.Length; phase++)
        {
            bool last = phase == course.QuizDays.Length;
            int until = last ? setting.Days - 1 : course.QuizDays[phase];
            for (int t = 0; t < abilities.Length; t++)
            {
                abilities[t] = course.AbilityAt(phase, t) + learner.Gain(t, from);
            }

            ImmutableArray<PlacedPiece> plan = coach.Plan(from, abilities);
            if (phase == 0)
            {
                forecastAtPlan = coach.Forecast;
            }

            minutes += Study(course, plan, until, learner, coach);
            if (!last)
            {
                Sit(course, course.AbilityAt, phase + 1, until, learner, abilities, setting.World.QuizItems, phase + 1, correct);
                coach.See(AttemptKind.Quiz, setting.From.PlusDays(until), setting.World.QuizItems, correct);
                from = until + 1;
            }
        }

        double eve = coach.ForecastOnEve();
        Sit(course, course.AbilityAt, course.QuizDays.Length + 1, setting.Days, learner, abilities, setting.World.TrueItems, TestSource.ExamTest, correct);
        return new CandidateOutcome(setting.World.Passes(correct), minutes, forecastAtPlan, eve);
    }

    private QuickStanding Standings(ExamWorld exam)
    {
        if (!standings.TryGetValue(exam, out QuickStanding? found))
        {
            standings.Add(exam, found = new QuickStanding(exam, world.Likelihoods));
        }

        return found;
    }

    private void Sit(CandidateCourse course, Func<int, int, double> abilityAt, int checkpoint, int day, Learner learner, double[] abilities, int[] items, int test, int[] correct)
    {
        for (int t = 0; t < abilities.Length; t++)
        {
            abilities[t] = abilityAt(checkpoint, t) + learner.Gain(t, day);
        }

        scenario.Tests.Answer(course.Setting.World, new Sitting(world.Seed, course.Candidate, test), abilities, items, correct);
    }

    // Returns the minutes studied.
    private int Study(CandidateCourse course, ImmutableArray<PlacedPiece> plan, int until, Learner learner, Coach coach)
    {
        Setting setting = course.Setting;
        int minutes = 0;
        int slot = 0;
        LocalDate today = default;
        double hoursToday = 0;
        foreach (PlacedPiece piece in plan)
        {
            int day = Period.DaysBetween(setting.From, piece.Slot.Date);
            if (day > until)
            {
                break;
            }

            while (setting.Slots[slot].Start != piece.Slot.Start)
            {
                slot++;
            }

            if (course.Missed[slot])
            {
                continue;
            }

            hoursToday = piece.Slot.Date == today ? hoursToday : 0;
            today = piece.Slot.Date;
            double hours = piece.Slot.Minutes / 60.0;
            learner.Study(day, piece.Topic, hours * Effect(piece.Slot, hoursToday), piece.Purpose.Kind());
            coach.Note(piece);
            hoursToday += hours;
            minutes += piece.Slot.Minutes;
        }

        return minutes;
    }

    private double Effect(Slot slot, double hoursToday)
    {
        if (scenario.Fatigue is not { } fatigue)
        {
            return 1;
        }

        bool late = slot.End.InUtc().TimeOfDay > fatigue.LateFrom;
        return Math.Pow(fatigue.LeftPerHour, hoursToday) * (late ? fatigue.LateShare : 1);
    }
}
