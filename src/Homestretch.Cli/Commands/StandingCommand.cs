using Homestretch.Cli.Prose;
using Homestretch.Core.Blueprints;
using Homestretch.Core.Standing;
using Homestretch.Files.Documents;
using Homestretch.Files.StudyLogs;

using NodaTime;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>Shows where a person stands.</summary>
public sealed class StandingCommand(Answer answer) : Command<StandingSettings>
{
    /// <inheritdoc/>
    public override int Execute(CommandContext context, StandingSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        (StudiedCandidate person, CandidateStanding standing, StudyReport? study) = Read(settings);
        if (settings.Json)
        {
            answer.Output.WriteLine(DocumentJson.Write(StandingDocument.Of(person.Name, standing, person.Basis, study)));
        }
        else
        {
            StandingProse.Write(answer.Console, person.Name, standing, person.Basis, study);
        }

        return Shell.Done;
    }

    internal static (StudiedCandidate Person, CandidateStanding Standing, StudyReport? Study) Read(StandingSettings settings)
    {
        LocalDate? asOf = settings.AsOf is { } text ? MomentText.Date("--as-of", text) : null;
        Inputs inputs = new();
        Exam? exam = inputs.Exam(settings.ExamPath);
        StudiedCandidate? candidate = inputs.Candidate(settings, exam);
        inputs.Check();
        (CandidateStanding standing, StudyReport? study) = candidate!.On(asOf ?? candidate.LastDay);
        return (candidate, standing, study);
    }
}
