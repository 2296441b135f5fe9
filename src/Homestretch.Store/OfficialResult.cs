using NodaTime;

namespace Homestretch.Store;

/// <summary>How the official exam ended. Figures by topic, where the report gives any, are rows of evidence of kind <c>official</c>.</summary>
public sealed class OfficialResult : KeptRow
{
    /// <summary>The day of the exam.</summary>
    public required LocalDate Date { get; init; }

    /// <summary>Whether it was passed, as the exam's owner says.</summary>
    public required bool Passed { get; init; }

    /// <summary>The score as the report gives it, such as <c>78 of 110</c>; empty where it gives none.</summary>
    public string Score { get; init; } = "";
}
