using System.Globalization;
using System.Text;

using Homestretch.Core.Blueprints;

namespace Homestretch.Core.Planning;

/// <summary>Stable names for blocks: topic and running number.</summary>
internal sealed class BlockNames
{
    private readonly string[] slugs;
    private readonly HashSet<string> used;
    private readonly int[] last;

    /// <param name="exam">The exam.</param>
    /// <param name="used">Names that other blocks have already.</param>
    public BlockNames(Exam exam, IEnumerable<string> used)
    {
        slugs = Slugs(exam);
        this.used = [.. used];
        last = new int[slugs.Length];
    }

    /// <summary>Names blocks from 1 on, topic by topic.</summary>
    public static Func<PlacedPiece, string> FromStart(Exam exam)
    {
        BlockNames names = new(exam, []);
        return piece => names.Next(piece.Topic);
    }

    /// <summary>A name that no block has yet.</summary>
    public string Next(int topic)
    {
        string name;
        do
        {
            name = string.Create(CultureInfo.InvariantCulture, $"{slugs[topic]}-{++last[topic]}");
        }
        while (!used.Add(name));
        return name;
    }

    // Topics whose names differ in punctuation only are told apart by a running number.
    private static string[] Slugs(Exam exam)
    {
        string[] names = [.. exam.Topics.Select(t => t.Name)];
        string[] slugs = Array.ConvertAll(names, Slug);
        for (int i = 0; i < slugs.Length; i++)
        {
            int earlier = Enumerable.Range(0, names.Length).Count(j => Slug(names[j]) == Slug(names[i]) && string.CompareOrdinal(names[j], names[i]) < 0);
            slugs[i] += earlier == 0 ? string.Empty : string.Create(CultureInfo.InvariantCulture, $"-x{earlier + 1}");
        }

        return slugs;
    }

    private static string Slug(string name)
    {
        StringBuilder slug = new(name.Length);
        foreach (char c in name.Normalize(NormalizationForm.FormKC).ToLowerInvariant())
        {
            if (char.IsLetterOrDigit(c))
            {
                slug.Append(c);
            }
            else if (slug.Length > 0 && slug[^1] != '-')
            {
                slug.Append('-');
            }
        }

        return slug.Length == 0 ? "topic" : slug.ToString().TrimEnd('-');
    }
}
