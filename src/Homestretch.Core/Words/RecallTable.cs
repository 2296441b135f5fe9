using Homestretch.Core.Learning;

using NodaTime;

namespace Homestretch.Core.Words;

/// <summary>What days before one exam count for, worked out once for all words.</summary>
internal sealed class RecallTable
{
    private readonly double[] losses;
    private readonly double[] spaced;

    /// <summary>Works it out.</summary>
    /// <param name="learning">Forgetting and spacing.</param>
    /// <param name="firstDay">The earliest day that counts: no word was met before it.</param>
    /// <param name="examDay">The day of the exam.</param>
    public RecallTable(LearningAssumptions learning, LocalDate firstDay, LocalDate examDay)
    {
        Learning = learning;
        ExamDay = examDay;
        int days = DaysBefore(firstDay) + 1;
        losses = [.. Enumerable.Range(0, days).Select(d => Math.Log(1 + (d / learning.RetentionScaleDays)))];
        spaced = [.. Enumerable.Range(0, days).Select(d => learning.SpacedDay(d))];
    }

    /// <summary>Forgetting and spacing.</summary>
    public LearningAssumptions Learning { get; }

    /// <summary>The day of the exam.</summary>
    public LocalDate ExamDay { get; }

    /// <summary>Days from a day to the exam.</summary>
    public int DaysBefore(LocalDate day) => Period.DaysBetween(day, ExamDay);

    /// <summary>The logarithm of (1 + days / scale): times the exponent of the retention law, the logarithm of the share that is left.</summary>
    public double Loss(int days) => losses[days];

    /// <summary>What a day counts as a well-spaced one after so many days.</summary>
    public double Spaced(int days) => spaced[days];

    /// <summary>The exponent of the retention law after so many well-spaced days, below zero.</summary>
    public double Exponent(double spacedDays)
        => -Learning.RetentionExponent / (Learning.Spacing == 0.5 ? Math.Sqrt(Math.Max(1, spacedDays)) : Math.Pow(Math.Max(1, spacedDays), Learning.Spacing));
}
