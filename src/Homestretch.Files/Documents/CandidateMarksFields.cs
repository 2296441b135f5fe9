using System.Collections.Immutable;

namespace Homestretch.Files.Documents;

/// <summary>What times and 'how sure' marks say of one person.</summary>
/// <param name="Candidate">The person.</param>
/// <param name="Correct">Correct answers.</param>
/// <param name="Timed">Answers with a time.</param>
/// <param name="Rapid">Those given faster than the item could be read.</param>
/// <param name="Effort">Share of timed answers that were not rapid.</param>
/// <param name="Speed">Speed on the log scale, 0 is average; null without times.</param>
/// <param name="LuckyGuesses">Expected lucky guesses; null where nobody asked how sure.</param>
/// <param name="SureWrong">Wrong answers given as sure; null where nobody asked.</param>
/// <param name="Pace">Chance of reaching the last item of each section with a time limit.</param>
public sealed record CandidateMarksFields(
    string Candidate,
    int Correct,
    int Timed,
    int Rapid,
    StatisticFields Effort,
    double? Speed,
    double? LuckyGuesses,
    int? SureWrong,
    ImmutableArray<PaceFields> Pace);
