using System.Globalization;
using System.Text;

namespace Homestretch.Files.Yaml;

/// <summary>Collects everything wrong in one YAML file.</summary>
/// <param name="file">The file as the person named it.</param>
internal sealed class YamlProblems(string file)
{
    private const int LongestValue = 60;

    private readonly ProblemList list = new();

    /// <summary>Whether anything is wrong so far.</summary>
    public bool Any => Count > 0;

    /// <summary>How many problems there are so far.</summary>
    public int Count { get; private set; }

    /// <summary>Whether further problems are only counted, so that there is no point in finding good words for them.</summary>
    public bool IsFull => Count >= ProblemList.MostListed;

    /// <summary>Adds a problem.</summary>
    public void Add(int line, string message)
    {
        list.Add(file, line, message);
        Count++;
    }

    /// <summary>All of them in the order of the file.</summary>
    public IReadOnlyList<FileProblem> InFileOrder() => list.InOrder();

    /// <summary>The file's bytes, or null with the problem noted.</summary>
    public byte[]? ReadBytes()
    {
        byte[]? bytes = FileText.ReadBytes(file, list);
        Count += bytes is null ? 1 : 0;
        return bytes;
    }

    /// <summary>A value as it can be shown in a message: in quotation marks, on one line, not too long.</summary>
    public static string Show(string value)
    {
        StringBuilder shown = new("'");
        foreach (Rune rune in value.AsSpan(0, Math.Min(value.Length, 4 * LongestValue)).EnumerateRunes())
        {
            if (shown.Length > LongestValue)
            {
                shown.Append('…');
                break;
            }

            shown.Append(Rune.IsControl(rune) ? "␣" : rune.ToString());
        }

        return shown.Append('\'').ToString();
    }

    /// <summary>A number as a person would write it.</summary>
    public static string Show(double value) => Math.Round(value, 4).ToString("0.####", CultureInfo.InvariantCulture);
}
