namespace Homestretch.Core.Laboratory;

/// <summary>What random numbers are drawn for. Each purpose has a sequence of its own, so that whatever one policy does, the same candidate meets the same luck under all.</summary>
internal enum Draws : uint
{
    /// <summary>Topics, weights, cut scores of an exam.</summary>
    Blueprint,

    /// <summary>Items of the pool an exam's tests are drawn from.</summary>
    Pool,

    /// <summary>Which exam, calendar and number of days a candidate has.</summary>
    Setting,

    /// <summary>Abilities and rate.</summary>
    Person,

    /// <summary>How abilities drift from test to test.</summary>
    Drift,

    /// <summary>How hard each test's items on each topic are.</summary>
    Form,

    /// <summary>Which items of the pool a test has.</summary>
    Items,

    /// <summary>Luck in answering.</summary>
    Answers,

    /// <summary>Which sessions are missed.</summary>
    Attendance,
}
