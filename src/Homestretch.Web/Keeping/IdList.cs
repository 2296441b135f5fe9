using System.Globalization;

namespace Homestretch.Web.Keeping;

/// <summary>Numbers of rows as a form carries them: <c>3-17,20</c>.</summary>
public static class IdList
{
    private const long MostRows = 1_000_000;

    /// <summary>The text of some numbers.</summary>
    public static string Write(IEnumerable<long> ids)
    {
        List<(long First, long Last)> runs = [];
        foreach (long id in ids.Order())
        {
            if (runs.Count > 0 && runs[^1].Last + 1 == id)
            {
                runs[^1] = (runs[^1].First, id);
            }
            else
            {
                runs.Add((id, id));
            }
        }

        return string.Join(',', runs.Select(r => r.First == r.Last ? Text(r.First) : Text(r.First) + "-" + Text(r.Last)));
    }

    /// <summary>The numbers of a text; null where it is none.</summary>
    public static IReadOnlyCollection<long>? Read(string? text)
    {
        List<long> ids = [];
        foreach (string run in (text ?? "").Split(','))
        {
            string[] ends = run.Split('-');
            if (ends.Length > 2 || Number(ends[0]) is not { } first || Number(ends[^1]) is not { } last || last < first || last - first + ids.Count > MostRows)
            {
                return null;
            }

            for (long id = first; id <= last; id++)
            {
                ids.Add(id);
            }
        }

        return ids;
    }

    private static string Text(long id) => id.ToString(CultureInfo.InvariantCulture);

    private static long? Number(string text) => long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out long number) ? number : null;
}
