using System.Globalization;

namespace Homestretch.Core.Planning.Changes;

/// <summary>A result of a short quiz that would change a plan.</summary>
/// <param name="Correct">Correct answers of <see cref="Items"/>.</param>
/// <param name="OrMore">Whether that many or more would; otherwise that many or fewer.</param>
public readonly record struct QuizThreshold(int Correct, bool OrMore)
{
    /// <summary>Items of the quiz.</summary>
    public const int Items = 10;

    /// <summary>"9 or more of 10".</summary>
    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"{Correct}{(Correct == (OrMore ? Items : 0) ? "" : OrMore ? " or more" : " or fewer")} of {Items}");
}
