using System.Collections.Immutable;

using Homestretch.Core.Blueprints;

namespace Homestretch.Core.AdaptiveTesting;

/// <summary>What a bank still has for a person.</summary>
/// <param name="Items">Items of the bank on topics that the exam scores.</param>
/// <param name="Answered">Items that the person has answered before.</param>
/// <param name="TooFamiliar">Further items, held back since too many others have been given them.</param>
/// <param name="OutOfTurn">Further items, held back since their topics have had their share of the blueprint, or others must come first.</param>
/// <param name="Lacking">Topics that have fallen behind their share and on which the bank has no item left.</param>
public sealed record BankStock(int Items, int Answered, int TooFamiliar, int OutOfTurn, ImmutableArray<ExamTopic> Lacking)
{
    /// <summary>Items that may come next.</summary>
    public int Open => Items - Answered - TooFamiliar - OutOfTurn;
}
