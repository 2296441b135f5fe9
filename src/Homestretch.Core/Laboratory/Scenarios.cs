using System.Collections.Immutable;

using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Laboratory;

/// <summary>The laboratory's scenarios. Every figure in them is invented; docs/evidence.md says what each means.</summary>
public static class Scenarios
{
    /// <summary>All of them, the one in which the planner is right first.</summary>
    public static ImmutableArray<Scenario> All { get; } =
    [
        new("as-assumed", "As the planner assumes", "Nothing differs: candidates, tests, learning and forgetting are what the planner takes them to be.") { AsAssumed = true },
        new("everyone", "Everyone, in doubt or not", "As assumed, also with people whose diagnostic lies far from the cut score.") { AsAssumed = true, NearCut = null },
        new("item-pool", "Items differ", "Every item has its own difficulty and discrimination, and all tests draw from one finite pool.") { Tests = new PooledTests() },
        new("prerequisites", "Thresholds in learning", "Learning approaches mastery exponentially, practice brings little before teaching, and half of the topics need the one before them.") { Learning = new Prerequisites() },
        new("fast-forgetting", "Exponential forgetting", "What is learned is forgotten exponentially, faster than the planner thinks.") { Learning = new ExponentialForgetting() },
        new("missed-sessions", "A quarter of sessions missed", "Sessions are missed at random, and four people in ten are ill for five days.") { Absences = new Absences(0.15, 0.4, 5) },
        new("wrong-blueprint", "Wrong weights", "The exam's true topic weights differ from the published ones.") { WeightLogSd = 0.35 },
        new("easy-practice", "Practice tests too easy", "Diagnostic and quizzes are half a logit easier than the exam, as tests with items seen before are.") { Tests = new ShiftedTests { EasierPractice = 0.5 } },
        new("fatigue", "Tired learners", "Each hour studied on a day leaves 80 % for the next, and sessions that end after half past eight in the evening bring 70 %.") { Fatigue = new Fatigue(0.8, new LocalTime(20, 30), 0.7) },
        new("slow-learners", "Slow learners", "Candidates learn at half the rate the planner assumes.") { People = new Population { RatePerHour = 0.5 * new Population().RatePerHour } },
        new("uneven-people", "Uneven people", "A person's topics lie twice as far apart as the planner thinks.") { People = new Population { TopicSd = 2 * new Population().TopicSd } },
        new("retaker-bands", "Retakers with bands", "As assumed, but all that is known at first is an official report with a fifth of the scale for each topic.")
        {
            BandsOnly = true,
            Tests = new ShiftedTests { ExamSd = StandingAssumptions.Default.OfficialFormSd },
        },
        new("all-at-once", "Everything at once", "Items differ, thresholds, sessions missed, wrong weights and tiredness together.")
        {
            Tests = new PooledTests(),
            Learning = new Prerequisites(),
            Absences = new Absences(0.15, 0.4, 5),
            WeightLogSd = 0.35,
            Fatigue = new Fatigue(0.8, new LocalTime(20, 30), 0.7),
        },
        new("two-days", "Two days left", "As assumed, with two days left.") { FewestDays = 2, MostDays = 2, AsAssumed = true },
        new("three-months", "Three months left", "As assumed, with three months left and a quiz every three weeks.") { FewestDays = 90, MostDays = 90, DaysBetweenQuizzes = 21, AsAssumed = true },
    ];
}
