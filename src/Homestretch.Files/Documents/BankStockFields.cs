using System.Collections.Immutable;

namespace Homestretch.Files.Documents;

/// <summary>What an item bank still has for a person; the first number is the sum of the next four.</summary>
/// <param name="Items">Items on topics that the exam scores.</param>
/// <param name="Answered">Items that the person has answered before.</param>
/// <param name="TooFamiliar">Items held back since too many others have answered them.</param>
/// <param name="OutOfTurn">Items held back by the blueprint.</param>
/// <param name="Open">Items that may come next.</param>
/// <param name="Lacking">Topics that have fallen behind their share and have no item left.</param>
public sealed record BankStockFields(int Items, int Answered, int TooFamiliar, int OutOfTurn, int Open, ImmutableArray<string> Lacking);
