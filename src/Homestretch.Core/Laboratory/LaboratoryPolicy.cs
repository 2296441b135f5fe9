namespace Homestretch.Core.Laboratory;

/// <summary>Who decides what a simulated candidate studies.</summary>
public enum LaboratoryPolicy
{
    /// <summary>The planner's optimised plan, made anew after every quiz.</summary>
    Optimised,

    /// <summary>The order coaches use, on the planner's own standing, made anew after every quiz: a coach with the program who keeps to the order.</summary>
    PracticeOrder,

    /// <summary>The same order by hand: levels are the plain shares of correct answers in all tests so far.</summary>
    ByHand,

    /// <summary>The same time for every topic.</summary>
    EqualShares,

    /// <summary>Time in proportion to the exam's items.</summary>
    ByWeight,

    /// <summary>The weakest topics first, whatever their weight, ranked anew after every quiz.</summary>
    WeakestFirst,

    /// <summary>No study.</summary>
    Nothing,

    /// <summary>The optimised plan of a planner that is told each candidate's true abilities and rate: the limit of what better evidence could do.</summary>
    Oracle,
}
