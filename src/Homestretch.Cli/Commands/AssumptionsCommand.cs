using Homestretch.Cli.Prose;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Sensitivity;
using Homestretch.Files.Documents;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>Which assumptions does the plan hang on?</summary>
public sealed class AssumptionsCommand(Answer answer, TimeProvider clock) : Command<CalendarSettings>
{
    /// <inheritdoc/>
    public override int Execute(CommandContext context, CalendarSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        PersonsTime person = PersonsTime.Read("assumptions", settings, clock);
        StudyPlan plan = Planner.Plan(person.Standing, person.Free, person.Busy, person.From, person.ExamDay, cancellation: cancellationToken);
        SensitivityTable table = SensitivityCalculator.Vary(person.Standing, person.Attempts, plan, person.Free, person.Busy, person.Basis.Bank, cancellationToken);
        if (settings.Json)
        {
            answer.Output.WriteLine(DocumentJson.Write(AssumptionsDocument.Of(person.Candidate, person.Standing, person.Basis, table)));
        }
        else
        {
            AssumptionsProse.Write(answer.Console, person, table);
        }

        return Shell.Done;
    }
}
