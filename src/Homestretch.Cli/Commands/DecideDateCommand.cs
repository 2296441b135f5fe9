using System.Collections.Immutable;

using Homestretch.Cli.Prose;
using Homestretch.Core.Deciding;
using Homestretch.Core.Evidence;
using Homestretch.Files.Documents;

using NodaTime;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>Sit, postpone, or retake when?</summary>
public sealed class DecideDateCommand(Answer answer, TimeProvider clock) : Command<DecideDateSettings>
{
    private const int MostWeeks = 52;
    private const int DaysInWeek = 7;

    /// <inheritdoc/>
    public override int Execute(CommandContext context, DecideDateSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        SittingTerms terms = Terms(settings);
        ImmutableArray<LocalDate> dates = [.. settings.Dates.Select(d => MomentText.Date("--date", d))];
        int horizon = dates.IsEmpty ? settings.Weeks * DaysInWeek : MostWeeks * DaysInWeek;
        PersonsTime person = PersonsTime.Read("decide date", settings, clock, horizon);
        if (dates.Any(d => Period.DaysBetween(person.ExamDay, d) > MostWeeks * DaysInWeek))
        {
            throw new UsageException($"--date takes dates up to {MostWeeks} weeks after the exam day.");
        }

        DateAdvice advice = DateAdvisor.Compare(
            person.Standing,
            [.. person.Attempts.Where(a => a.Kind == AttemptKind.Official).Select(a => a.Date)],
            person.Free,
            person.Busy,
            person.From,
            person.ExamDay,
            dates.IsEmpty ? DateAdvisor.WeekByWeek(person.ExamDay, settings.Weeks) : dates,
            terms,
            cancellationToken);
        if (settings.Json)
        {
            answer.Output.WriteLine(DocumentJson.Write(DateDocument.Of(person.Candidate, person.Standing, person.Basis, advice)));
        }
        else
        {
            DecisionProse.Write(answer.Console, person, advice);
        }

        return Shell.Done;
    }

    private static SittingTerms Terms(DecideDateSettings settings)
    {
        if (settings.Weeks is < 0 or > MostWeeks)
        {
            throw new UsageException($"--weeks is a whole number from 0 to {MostWeeks}; {settings.Weeks} is not.");
        }

        if (settings.Target is < 1 or > 99)
        {
            throw new UsageException($"--target is a whole percentage from 1 to 99; {settings.Target} is not.");
        }

        return new SittingTerms
        {
            Target = settings.Target / 100.0,
            PostponeFee = Fee("--postpone-fee", settings.PostponeFee),
            RetakeFee = Fee("--retake-fee", settings.RetakeFee),
            PostponeUntil = settings.PostponeUntil is { } until ? MomentText.Date("--postpone-until", until) : null,
            LastDate = settings.LastDate is { } last ? MomentText.Date("--last-date", last) : null,
        };
    }

    private static decimal? Fee(string option, decimal? fee)
        => fee is < 0 or > 1_000_000 ? throw new UsageException($"{option} is an amount from 0 to 1000000; {fee} is not.") : fee;
}
