using System.Collections.Immutable;
using System.Runtime.CompilerServices;

namespace Homestretch.Core.Measurement;

/// <summary>Answers of many persons to many items, some of them missing; equal rows are kept once, with a count.</summary>
/// <remarks>Five answers take one byte, as digits to base three. The models use the same byte as an index: what five answers add to a person's
/// log-likelihood is looked up in one table row, so the cost per person is a fifth of the number of items. Methods that pass over all answers are compiled
/// with full optimisation at once, since one call is all they get in a program that runs for a second.</remarks>
public sealed class ResponseMatrix
{
    /// <summary>Answers in one byte: 3^5 = 243 codes.</summary>
    internal const int ItemsPerCode = 5;

    /// <summary>Number of codes of one byte.</summary>
    internal const int Codes = 243;

    // Looking for equal rows costs a hash table; where the first rows are nearly all different it would find nothing.
    private const int RowsLookedAt = 2000;
    private const double DifferentEnough = 0.9;

    private static readonly Answer[] Digits = AllDigits();

    private readonly byte[] codes;
    private readonly int[] counts;
    private readonly int[]? patternOf;

    private ResponseMatrix(ImmutableArray<string> items, byte[] codes, int[] counts, int[]? patternOf)
    {
        Items = items;
        CodesPerRow = CodesFor(items.Length);
        this.codes = codes;
        this.counts = counts;
        this.patternOf = patternOf;
        Persons = counts.Sum();
    }

    /// <summary>Labels of the items, in column order.</summary>
    public ImmutableArray<string> Items { get; }

    /// <summary>Number of persons.</summary>
    public int Persons { get; }

    /// <summary>Number of rows kept: different response patterns, or persons where nearly all patterns differ.</summary>
    public int Patterns => counts.Length;

    internal int CodesPerRow { get; }

    internal ReadOnlySpan<int> Counts => counts;

    /// <summary>One answer.</summary>
    /// <param name="person">0 to <see cref="Persons"/> - 1.</param>
    /// <param name="item">Column, 0 to the number of items - 1.</param>
    public Answer this[int person, int item] => AnswerOf(PatternOf(person), item);

    /// <summary>Answers given row after row.</summary>
    /// <param name="items">Labels, all different.</param>
    /// <param name="rows">Persons times items answers, one person after the other.</param>
    /// <exception cref="ArgumentException">Two items share a label, or the number of answers is no multiple of the number of items.</exception>
    public static ResponseMatrix Create(ImmutableArray<string> items, ReadOnlySpan<Answer> rows)
    {
        CheckItems(items);
        if (rows.Length % items.Length != 0)
        {
            throw new ArgumentException($"{rows.Length} answers do not fill whole rows of {items.Length} items.", nameof(rows));
        }

        int persons = rows.Length / items.Length;
        byte[] codes = Encode(rows, items.Length, persons);
        return NearlyAllDiffer(codes, CodesFor(items.Length), persons)
            ? new ResponseMatrix(items, codes, Ones(persons), null)
            : Collapse(items, codes, Ones(persons), keepPersons: true);
    }

    /// <summary>Response patterns with the number of persons who gave each; persons are numbered pattern by pattern.</summary>
    /// <param name="items">Labels, all different.</param>
    /// <param name="patterns">Patterns times items answers, one pattern after the other.</param>
    /// <param name="counts">Persons of each pattern, zero or more.</param>
    /// <exception cref="ArgumentException">Two items share a label, or the sizes do not fit.</exception>
    public static ResponseMatrix FromPatterns(ImmutableArray<string> items, ReadOnlySpan<Answer> patterns, ReadOnlySpan<int> counts)
    {
        CheckItems(items);
        if (patterns.Length != items.Length * counts.Length)
        {
            throw new ArgumentException($"{patterns.Length} answers do not fill {counts.Length} patterns of {items.Length} items.", nameof(patterns));
        }

        List<Answer> kept = [];
        List<int> keptCounts = [];
        for (int row = 0; row < counts.Length; row++)
        {
            ArgumentOutOfRangeException.ThrowIfNegative(counts[row], nameof(counts));
            if (counts[row] > 0)
            {
                kept.AddRange(patterns.Slice(row * items.Length, items.Length));
                keptCounts.Add(counts[row]);
            }
        }

        byte[] codes = Encode(System.Runtime.InteropServices.CollectionsMarshal.AsSpan(kept), items.Length, keptCounts.Count);
        return Collapse(items, codes, [.. keptCounts], keepPersons: false);
    }

    /// <summary>The row that a person's answers are kept in.</summary>
    internal int PatternOf(int person)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(person);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(person, Persons);
        if (patternOf is not null)
        {
            return patternOf[person];
        }

        if (Patterns == Persons)
        {
            return person;
        }

        int pattern = 0;
        for (int before = counts[0]; before <= person; before += counts[pattern])
        {
            pattern++;
        }

        return pattern;
    }

    internal ReadOnlySpan<byte> Row(int pattern) => codes.AsSpan(pattern * CodesPerRow, CodesPerRow);

    internal Answer AnswerOf(int pattern, int item)
        => Digit(codes[(pattern * CodesPerRow) + (item / ItemsPerCode)], item % ItemsPerCode);

    internal void Decode(int pattern, Span<Answer> answers)
    {
        int item = 0;
        foreach (byte code in Row(pattern))
        {
            int last = Math.Min(ItemsPerCode, answers.Length - item);
            for (int place = 0; place < last; place++)
            {
                answers[item++] = Digits[(code * ItemsPerCode) + place];
            }
        }
    }

    internal static Answer Digit(int code, int place) => Digits[(code * ItemsPerCode) + place];

    /// <summary>The same persons on some of the items.</summary>
    internal ResponseMatrix Select(IReadOnlyList<int> columns)
    {
        Answer[] answers = new Answer[Items.Length];
        Answer[] rows = new Answer[Patterns * columns.Count];
        for (int p = 0; p < Patterns; p++)
        {
            Decode(p, answers);
            for (int j = 0; j < columns.Count; j++)
            {
                rows[(p * columns.Count) + j] = answers[columns[j]];
            }
        }

        return new ResponseMatrix([.. columns.Select(c => Items[c])], Encode(rows, columns.Count, Patterns), counts, patternOf);
    }

    private static Answer[] AllDigits()
    {
        Answer[] digits = new Answer[Codes * ItemsPerCode];
        for (int code = 0; code < Codes; code++)
        {
            int rest = code;
            for (int place = 0; place < ItemsPerCode; place++)
            {
                digits[(code * ItemsPerCode) + place] = (Answer)(rest % 3);
                rest /= 3;
            }
        }

        return digits;
    }

    private static int CodesFor(int items) => (items + ItemsPerCode - 1) / ItemsPerCode;

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static byte[] Encode(ReadOnlySpan<Answer> rows, int items, int persons)
    {
        int width = CodesFor(items);
        byte[] codes = new byte[persons * width];
        for (int p = 0; p < persons; p++)
        {
            ReadOnlySpan<Answer> row = rows.Slice(p * items, items);
            for (int g = 0; g < width; g++)
            {
                // Places beyond the last item count as missing.
                int code = 0;
                for (int place = ItemsPerCode - 1; place >= 0; place--)
                {
                    int item = (g * ItemsPerCode) + place;
                    int digit = item < items ? (int)row[item] : (int)Answer.Missing;
                    if (digit > 2)
                    {
                        throw new ArgumentOutOfRangeException(nameof(rows), digit, "An answer is wrong, right or missing.");
                    }

                    code = (3 * code) + digit;
                }

                codes[(p * width) + g] = (byte)code;
            }
        }

        return codes;
    }

    private static void CheckItems(ImmutableArray<string> items)
    {
        if (items.IsDefaultOrEmpty)
        {
            throw new ArgumentException("At least one item is needed.", nameof(items));
        }

        if (items.Distinct(StringComparer.Ordinal).Count() != items.Length)
        {
            throw new ArgumentException("Two items have the same label.", nameof(items));
        }
    }

    private static int[] Ones(int length)
    {
        int[] ones = new int[length];
        Array.Fill(ones, 1);
        return ones;
    }

    private static bool NearlyAllDiffer(byte[] codes, int width, int persons)
    {
        int rows = Math.Min(persons, RowsLookedAt);
        if (rows < RowsLookedAt)
        {
            return false;
        }

        HashSet<UInt128> seen = [];
        for (int p = 0; p < rows; p++)
        {
            seen.Add(Fingerprint(codes.AsSpan(p * width, width)));
        }

        return seen.Count > DifferentEnough * rows;
    }

    // Only for guessing whether a search pays; equal prints of different rows do no harm.
    private static UInt128 Fingerprint(ReadOnlySpan<byte> row)
    {
        UInt128 print = 0;
        foreach (byte code in row)
        {
            print = (print * 251) + code;
        }

        return print;
    }

    private static ResponseMatrix Collapse(ImmutableArray<string> items, byte[] codes, int[] counts, bool keepPersons)
    {
        int width = CodesFor(items.Length);
        Dictionary<RowKey, int> found = [];
        List<byte> kept = [];
        List<int> keptCounts = [];
        int[] pattern = new int[counts.Length];
        for (int p = 0; p < counts.Length; p++)
        {
            RowKey key = new(codes.AsMemory(p * width, width));
            if (!found.TryGetValue(key, out int row))
            {
                row = keptCounts.Count;
                found.Add(key, row);
                kept.AddRange(codes.AsSpan(p * width, width));
                keptCounts.Add(0);
            }

            keptCounts[row] += counts[p];
            pattern[p] = row;
        }

        return new ResponseMatrix(items, [.. kept], [.. keptCounts], keepPersons ? pattern : null);
    }

    private readonly record struct RowKey(ReadOnlyMemory<byte> Row)
    {
        public bool Equals(RowKey other) => Row.Span.SequenceEqual(other.Row.Span);

        public override int GetHashCode()
        {
            HashCode hash = default;
            hash.AddBytes(Row.Span);
            return hash.ToHashCode();
        }
    }
}
