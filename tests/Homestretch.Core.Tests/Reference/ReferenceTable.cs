using System.Globalization;

namespace Homestretch.Core.Tests.Reference;

/// <summary>Figures of a reference library, written by make.py beside this file.</summary>
internal static class ReferenceTable
{
    public static IEnumerable<string[]> Rows(string name)
        => File.ReadLines(Path.Combine(AppContext.BaseDirectory, "Reference", name)).Skip(1).Select(line => line.Split(','));

    public static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
