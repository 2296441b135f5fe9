using System.Collections.Immutable;
using System.Globalization;
using System.Text;

using NodaTime;

namespace Homestretch.Core.Rooms;

/// <summary>What was planned and done day by day, and how the pass chance moved: enough to say of any later day what the week before it was like.</summary>
public sealed record FiguresByDay
{
    private const int PerMille = 1000;

    /// <param name="first">The first day.</param>
    /// <param name="days">One for each day from then on, without gaps.</param>
    public FiguresByDay(LocalDate first, ImmutableArray<DayFigures> days)
    {
        First = first;
        Days = days;
    }

    /// <summary>The first day.</summary>
    public LocalDate First { get; }

    /// <summary>One for each day from <see cref="First"/> on, without gaps.</summary>
    public ImmutableArray<DayFigures> Days { get; }

    /// <summary>Sums over days, both ends included; days outside count nothing.</summary>
    public (int Planned, int Done, int Missed) Sum(LocalDate from, LocalDate to)
    {
        (int planned, int done, int missed) = (0, 0, 0);
        int last = Math.Min(Days.Length - 1, Period.DaysBetween(First, to));
        for (int i = Math.Max(0, Period.DaysBetween(First, from)); i <= last; i++)
        {
            planned += Days[i].Planned;
            done += Days[i].Done;
            missed += Days[i].Missed;
        }

        return (planned, done, missed);
    }

    /// <summary>The pass chance that held at the end of a day, 0 to 1: that of the last plan made up to then, or of the first one where that came later. Null where there is no plan.</summary>
    public double? PassChanceOn(LocalDate day)
    {
        for (int i = Math.Min(Days.Length - 1, Period.DaysBetween(First, day)); i >= 0; i--)
        {
            if (Days[i].PassChance is { } chance)
            {
                return chance;
            }
        }

        foreach (DayFigures one in Days)
        {
            if (one.PassChance is { } chance)
            {
                return chance;
            }
        }

        return null;
    }

    /// <summary>As one line of text: for each day minutes planned, minutes done, sessions missed and pass chance in thousandths, with commas between, days with semicolons between;
    /// what is nothing is empty, and days at the end without anything are left out.</summary>
    public string Write()
    {
        StringBuilder text = new();
        int end = Days.Length;
        while (end > 0 && Days[end - 1] == default)
        {
            end--;
        }

        for (int i = 0; i < end; i++)
        {
            DayFigures day = Days[i];
            text.Append(i == 0 ? "" : ";");
            if (day != default)
            {
                text.Append(CultureInfo.InvariantCulture, $"{day.Planned:#},{day.Done:#},{day.Missed:#},");
                text.Append(day.PassChance is { } chance ? ((int)Math.Round(chance * PerMille)).ToString(CultureInfo.InvariantCulture) : "");
            }
        }

        return text.ToString();
    }

    /// <summary>What <see cref="Write"/> wrote.</summary>
    /// <exception cref="FormatException">It did not.</exception>
    public static FiguresByDay Read(LocalDate first, ReadOnlySpan<char> text)
    {
        ImmutableArray<DayFigures>.Builder days = ImmutableArray.CreateBuilder<DayFigures>();
        if (!text.IsEmpty)
        {
            foreach (Range range in text.Split(';'))
            {
                days.Add(Day(text[range]));
            }
        }

        return new(first, days.ToImmutable());
    }

    private static DayFigures Day(ReadOnlySpan<char> text)
    {
        if (text.IsEmpty)
        {
            return default;
        }

        Span<int> values = stackalloc int[4];
        int at = 0;
        bool hasChance = false;
        foreach (Range range in text.Split(','))
        {
            if (at == values.Length)
            {
                throw new FormatException("A day has four figures.");
            }

            ReadOnlySpan<char> value = text[range];
            hasChance = at == values.Length - 1 && !value.IsEmpty;
            values[at++] = value.IsEmpty ? 0 : int.Parse(value, NumberStyles.None, CultureInfo.InvariantCulture);
        }

        return at == values.Length
            ? new(values[0], values[1], values[2], hasChance ? values[3] / (double)PerMille : null)
            : throw new FormatException("A day has four figures.");
    }
}
