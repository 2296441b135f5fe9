using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Cli.Prose;
using Homestretch.Core.Deciding;
using Homestretch.Files.Documents;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>How much would more hours a week buy, and is it time to stop?</summary>
public sealed class DecideHoursCommand(Answer answer, TimeProvider clock) : Command<DecideHoursSettings>
{
    private const int MostHours = 80;

    /// <inheritdoc/>
    public override int Execute(CommandContext context, DecideHoursSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        foreach (double hours in settings.Hours)
        {
            if (!(hours is >= 0 and <= MostHours))
            {
                throw new UsageException($"--hours is a number from 0 to {MostHours}; {hours.ToString(CultureInfo.InvariantCulture)} is not.");
            }
        }

        PersonsTime person = PersonsTime.Read("decide hours", settings, clock);
        ImmutableArray<int> minutes = settings.Hours.Length == 0 ? HoursAdvisor.Usual(person.Free) : [.. settings.Hours.Select(h => (int)Math.Round(h * 60))];
        HoursAdvice advice = HoursAdvisor.Compare(person.Standing, person.Free, person.Busy, person.From, person.ExamDay, minutes, cancellationToken);
        if (settings.Json)
        {
            answer.Output.WriteLine(DocumentJson.Write(HoursDocument.Of(person.Candidate, person.Standing, person.Basis, advice)));
        }
        else
        {
            DecisionProse.Write(answer.Console, person, advice);
        }

        return Shell.Done;
    }
}
