using Homestretch.Cli.Prose;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Planning;
using Homestretch.Core.Standing;
using Homestretch.Files;
using Homestretch.Files.Documents;
using Homestretch.Files.StudyLogs;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>Shows the chance of passing as things stand.</summary>
public sealed class ForecastCommand(Answer answer) : Command<StandingSettings>
{
    /// <inheritdoc/>
    public override int Execute(CommandContext context, StandingSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        (StudiedCandidate person, CandidateStanding standing, StudyReport? study) = StandingCommand.Read(settings);
        CandidateReport report = new(person.Name, standing, person.Basis, ForecastCalculator.Calculate(standing), WorthCalculator.NextMinutes(standing), null) { Study = study };
        if (settings.Json)
        {
            answer.Output.WriteLine(DocumentJson.Write(ForecastDocument.Of(report)));
        }
        else
        {
            ForecastProse.Write(answer.Console, report);
        }

        return Shell.Done;
    }
}
