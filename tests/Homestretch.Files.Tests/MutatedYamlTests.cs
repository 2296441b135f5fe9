using System.Globalization;
using System.Text;

using CsCheck;

using Homestretch.Files.Exams;
using Homestretch.Files.FreeTimes;

namespace Homestretch.Files.Tests;

/// <summary>Valid files with random damage: reading never throws, gives a value or problems, and never both.</summary>
public class MutatedYamlTests
{
    private static readonly string[] Fragments =
    [
        "", " ", "  ", "\t", "\n", "\r\n", ":", ": ", "- ", "[", "]", "{", "}", ",", "#", "&a ", "*a", "!!int ", "!x ", "|", ">", "'", "\"", "%", "---\n", "...\n", "~", "null", "? ", "<<: ",
        "0", "-1", "1.5", "1e9", "999999999999", "NaN", "30 %", "18 items", "25-35 %", "24:00", "18:30", "2026-02-30", "\u00e9", "\ud83d\ude00", "\ud800", "\u0000", "\u0085", "\u2028", "\ufeff", "\\x00", "pass: ", "topics: ",
    ];

    private static readonly Gen<(int Kind, int Where, int Length, int Fragment)> Damage =
        Gen.Select(Gen.Int[0, 4], Gen.Int[0, 100_000], Gen.Int[1, 12], Gen.Int[0, Fragments.Length - 1]);

    [Fact]
    public void A_damaged_exam_file_never_throws()
    {
        string valid = File.ReadAllText(TestFiles.Demo("exam.yaml"));
        Damage.Array[1, 4].Sample(damage => Holds(ExamFile.Parse("exam.yaml", Apply(valid, damage))), iter: 3000);
    }

    [Fact]
    public void A_damaged_free_time_file_never_throws()
    {
        string valid = File.ReadAllText(TestFiles.Demo("mara-venn.free.yaml"));
        Damage.Array[1, 4].Sample(damage => Holds(FreeTimeFile.Parse("free.yaml", Apply(valid, damage))), iter: 3000);
    }

    [Fact]
    public void Text_made_of_fragments_never_throws() =>
        Gen.Int[0, Fragments.Length - 1].Array[0, 60].Sample(
            picks =>
            {
                string text = string.Concat(picks.Select(p => Fragments[p]));
                return Holds(ExamFile.Parse("exam.yaml", text)) && Holds(FreeTimeFile.Parse("free.yaml", "zone: " + text));
            },
            iter: 5000);

    [Fact]
    public void Bytes_at_random_never_throw()
    {
        string path = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName());
        byte[] valid = File.ReadAllBytes(TestFiles.Demo("exam.yaml"));
        try
        {
            Gen.Select(Gen.Int[0, valid.Length - 1], Gen.Byte).Array[1, 6].Sample(
                changes =>
                {
                    byte[] damaged = [.. valid];
                    foreach ((int at, byte value) in changes)
                    {
                        damaged[at] = value;
                    }

                    File.WriteAllBytes(path, damaged);
                    return Holds(ExamFile.Read(path));
                },
                iter: 300,
                threads: 1);
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Fact]
    public void Deleting_any_one_line_of_the_demo_never_throws()
    {
        string[] lines = File.ReadAllLines(TestFiles.Demo("exam.yaml"));
        for (int i = 0; i < lines.Length; i++)
        {
            string text = string.Join('\n', lines.Where((_, n) => n != i));
            Assert.True(Holds(ExamFile.Parse("exam.yaml", text)), $"line {(i + 1).ToString(CultureInfo.InvariantCulture)} deleted");
        }
    }

    private static bool Holds<T>(ReadResult<T> result)
        where T : class =>
        result.IsOk == result.Problems.IsEmpty && (result.Value is null) != result.IsOk
            && result.Problems.All(p => p.Line >= 1 && p.Message.Length > 0 && !p.Message.Contains("Exception", StringComparison.Ordinal));

    private static string Apply(string text, (int Kind, int Where, int Length, int Fragment)[] damage)
    {
        StringBuilder damaged = new(text);
        foreach ((int kind, int where, int length, int fragment) in damage)
        {
            int at = damaged.Length == 0 ? 0 : where % damaged.Length;
            switch (kind)
            {
                case 0:
                    damaged.Remove(at, Math.Min(length, damaged.Length - at));
                    break;
                case 1:
                    damaged.Insert(at, Fragments[fragment]);
                    break;
                case 2:
                    damaged.Remove(at, Math.Min(length, damaged.Length - at)).Insert(at, Fragments[fragment]);
                    break;
                case 3:
                    List<string> lines = [.. damaged.ToString().Split('\n')];
                    lines.RemoveAt(where % lines.Count);
                    damaged.Clear().AppendJoin('\n', lines);
                    break;
                default:
                    string[] all = damaged.ToString().Split('\n');
                    string moved = all[where % all.Length];
                    damaged.Append('\n').Append(moved);
                    break;
            }
        }

        return damaged.ToString();
    }
}
