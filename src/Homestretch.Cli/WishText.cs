using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Cli.Commands;
using Homestretch.Core.Blueprints;
using Homestretch.Core.Planning.Wishes;
using Homestretch.Files;

using NodaTime;

namespace Homestretch.Cli;

/// <summary>A coach's wishes on the command line.</summary>
internal static class WishText
{
    private const int MostMinutes = 60_000;

    /// <summary>The wishes.</summary>
    /// <param name="settings">What was typed.</param>
    /// <param name="exam">The exam, whose topics they name.</param>
    /// <param name="zone">The person's zone.</param>
    /// <exception cref="UsageException">A wish cannot be read, names no topic of the exam, or goes with an earlier plan.</exception>
    public static CoachWishes Read(PlanSettings settings, Exam exam, DateTimeZone zone)
    {
        CoachWishes wishes = new(
            [.. settings.Avoid.Select(t => Topic("--avoid", t, exam))],
            [.. settings.Include.Select(t => Topic("--include", t, exam))],
            [.. settings.AtLeast.Select(t => AtLeast(t, exam))],
            [.. settings.Pins.Select(t => Pin(t, exam, zone))]);
        return wishes.IsEmpty || settings.BeforePath is null
            ? wishes
            : throw new UsageException("Wishes (--avoid, --include, --at-least, --pin) go with a plan made from scratch; leave them out, or --before.");
    }

    private static MinutesWish AtLeast(string text, Exam exam)
    {
        int at = text.LastIndexOf('=');
        return at > 0 && int.TryParse(text[(at + 1)..].Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out int minutes) && minutes is > 0 and <= MostMinutes
            ? new(Topic("--at-least", text[..at], exam), minutes)
            : throw new UsageException($"--at-least is a topic, '=' and a number of minutes from 1 to {MostMinutes}, such as 'Cataloguing=120'; '{text}' is not.");
    }

    private static PinWish Pin(string text, Exam exam, DateTimeZone zone)
    {
        int at = text.IndexOf('=', StringComparison.Ordinal);
        return at > 0
            ? new(MomentText.Moment("The start of --pin", text[..at])(zone).ToInstant(), Topic("--pin", text[(at + 1)..], exam))
            : throw new UsageException($"--pin is a time, '=' and a topic, such as '2026-11-28T10:00=Cataloguing'; '{text}' is not.");
    }

    private static string Topic(string option, string text, Exam exam)
    {
        ImmutableArray<string> topics = [.. exam.Topics.Select(t => t.Name)];
        return topics.FirstOrDefault(t => string.Equals(t, text.Trim(), StringComparison.OrdinalIgnoreCase))
            ?? throw new UsageException(NearestName.Suggest(text, topics) is { } near
                ? $"{option}: the exam has no topic '{text}'; did you mean '{near}'?"
                : $"{option}: the exam has no topic '{text}'; its topics are {string.Join(", ", topics)}.");
    }
}
