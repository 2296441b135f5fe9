using System.Collections.Immutable;

namespace Homestretch.Files.Sheets;

/// <summary>One row of a CSV file, cell by cell as it was written, without regard to whether it makes sense.</summary>
/// <param name="Line">The line it begins on, from 1.</param>
/// <param name="Cells">One cell for each of <see cref="SheetCells.Columns"/>, in that order; empty where the file has none. Stray spaces are gone.</param>
public sealed record SheetLine(int Line, ImmutableArray<string> Cells);
