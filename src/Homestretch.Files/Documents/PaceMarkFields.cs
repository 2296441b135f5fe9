using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Measurement;

namespace Homestretch.Files.Documents;

/// <summary>Where to be on the clock on exam day.</summary>
/// <param name="Section">The section.</param>
/// <param name="Item">After this item ...</param>
/// <param name="MinutesUsed">... at most so many minutes gone ...</param>
/// <param name="MinutesLeft">... and so many left.</param>
public sealed record PaceMarkFields(string Section, int Item, int MinutesUsed, int MinutesLeft)
{
    /// <summary>The marks of every section with a time limit.</summary>
    public static ImmutableArray<PaceMarkFields> Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return [.. exam.Sections.SelectMany(s => Pace.Marks(s).Select(m => new PaceMarkFields(s.Name, m.Item, m.MinutesUsed, m.MinutesLeft)))];
    }
}
