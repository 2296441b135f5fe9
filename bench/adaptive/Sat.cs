using System.Collections.Immutable;

using Homestretch.Core.Standing;

namespace Homestretch.Adaptive;

/// <summary>One diagnostic as one person sat it.</summary>
/// <param name="PassChances">The pass chance after 0, 1, 2, ... items.</param>
/// <param name="Items">The items given.</param>
/// <param name="StoppedAfter">Items after which the stopping rule would have ended it.</param>
internal sealed record Sat(ImmutableArray<double> PassChances, ImmutableArray<BankItem> Items, int StoppedAfter);
