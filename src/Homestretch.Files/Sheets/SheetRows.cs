using System.Collections.Immutable;

namespace Homestretch.Files.Sheets;

/// <summary>The rows of a CSV file.</summary>
/// <param name="Lines">In the order of the file.</param>
public sealed record SheetRows(ImmutableArray<SheetLine> Lines);
