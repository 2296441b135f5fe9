namespace Homestretch.Core.Measurement;

/// <summary>Derivatives, at every node, of the log-chance of an answer by the item's parameters.</summary>
/// <param name="Wrong">Nodes times <paramref name="Width"/>: of a wrong answer.</param>
/// <param name="Gap">Nodes times <paramref name="GapWidth"/>: what a right answer has more.</param>
/// <param name="Width">Columns, rounded up to whole vectors: items times <paramref name="Kinds"/>.</param>
/// <param name="GapWidth">The same as <paramref name="Width"/>, or a single vector where all items have the same gaps.</param>
/// <param name="Kinds">Parameters per item, a shared one counted with each.</param>
/// <param name="Parameter">The model's parameter that a column belongs to.</param>
internal sealed record ScoreTable(double[] Wrong, double[] Gap, int Width, int GapWidth, int Kinds, Func<int, int> Parameter);
