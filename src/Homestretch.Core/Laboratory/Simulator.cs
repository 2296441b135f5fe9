using System.Collections.Immutable;

using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;

namespace Homestretch.Core.Laboratory;

/// <summary>Lets candidates live through the weeks before the exam, once under each policy. One per thread.</summary>
internal sealed class Simulator(ScenarioWorld world, ImmutableArray<LaboratoryPolicy> policies)
{
    private readonly Scenario scenario = world.Scenario;
    private readonly Dictionary<ExamWorld, (QuickStanding Standing, QuickPlanner Planner)> known = [];
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
        ExamWorld exam = course.Setting.World;
        StudyTime time = course.Setting.Time;
        Learner learner = scenario.Learning.Start(course.Person, exam);
        (QuickStanding standing, QuickPlanner planner) = Known(exam);
        Coach coach = new(course, policy, standing, planner);
        int minutes = 0;
        double[] abilities = new double[course.Person.Abilities.Length];
        int[] correct = new int[abilities.Length];
        for (int phase = 0; phase < time.PhaseStarts.Length; phase++)
        {
            for (int t = 0; t < abilities.Length; t++)
            {
                abilities[t] = course.AbilityAt(phase, t) + learner.Gain(t, time.PhaseStarts[phase]);
            }

            coach.Plan(phase, abilities);
            bool last = phase == time.QuizDays.Length;
            int until = last ? time.Days - 1 : time.QuizDays[phase];
            minutes += Study(course, time.FirstSlots[phase], until, learner, coach);
            if (!last)
            {
                Sit(course, phase + 1, until, learner, abilities, exam.QuizItems, phase + 1, correct);
                coach.See(time.From.PlusDays(until), exam.QuizItems, correct);
            }
        }

        double eve = coach.ForecastOnEve();
        Sit(course, time.QuizDays.Length + 1, time.Days, learner, abilities, exam.TrueItems, TestSource.ExamTest, correct);
        return new CandidateOutcome(exam.Passes(correct), minutes, coach.Forecast, eve);
    }

    private (QuickStanding Standing, QuickPlanner Planner) Known(ExamWorld exam)
    {
        if (!known.TryGetValue(exam, out (QuickStanding, QuickPlanner) found))
        {
            known.Add(exam, found = (new QuickStanding(exam, world.Likelihoods), new QuickPlanner(exam.Exam)));
        }

        return found;
    }

    private void Sit(CandidateCourse course, int checkpoint, int day, Learner learner, double[] abilities, int[] items, int test, int[] correct)
    {
        for (int t = 0; t < abilities.Length; t++)
        {
            abilities[t] = course.AbilityAt(checkpoint, t) + learner.Gain(t, day);
        }

        scenario.Tests.Answer(course.Setting.World, new Sitting(world.Seed, course.Candidate, test), abilities, items, correct);
    }

    // Returns the minutes studied.
    private int Study(CandidateCourse course, int firstSlot, int until, Learner learner, Coach coach)
    {
        StudyTime time = course.Setting.Time;
        int minutes = 0;
        int today = -1;
        double hoursToday = 0;
        ReadOnlySpan<int> topics = coach.Topics;
        for (int i = 0; i < topics.Length && time.Day[firstSlot + i] <= until; i++)
        {
            int at = firstSlot + i;
            if (topics[i] < 0 || course.Missed[at])
            {
                continue;
            }

            Slot slot = time.Slots[at];
            hoursToday = time.Day[at] == today ? hoursToday : 0;
            today = time.Day[at];
            double hours = slot.Minutes / 60.0;
            learner.Study(today, topics[i], hours * Effect(slot, hoursToday), coach.Kinds[i]);
            coach.Note(slot, topics[i], coach.Kinds[i]);
            hoursToday += hours;
            minutes += slot.Minutes;
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
