using System.Collections.Immutable;

using Homestretch.Cli.Prose;
using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Standing;
using Homestretch.Files.Documents;

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
        (string candidate, CandidateStanding standing) = Read(settings);
        if (settings.Json)
        {
            answer.Output.WriteLine(DocumentJson.Write(StandingDocument.Of(candidate, standing)));
        }
        else
        {
            StandingProse.Write(answer.Console, candidate, standing);
        }

        return Shell.Done;
    }

    internal static (string Candidate, CandidateStanding Standing) Read(StandingSettings settings)
    {
        LocalDate? asOf = settings.AsOf is { } text ? MomentText.Date("--as-of", text) : null;
        Inputs inputs = new();
        Exam? exam = inputs.Exam(settings.ExamPath);
        (string Name, ImmutableArray<Attempt> Attempts)? candidate = inputs.Candidate(settings.EvidencePaths, exam, settings.Candidate);
        inputs.Check();
        (string name, ImmutableArray<Attempt> attempts) = candidate!.Value;
        return (name, StandingCalculator.Calculate(exam!, attempts, asOf ?? attempts.Max(a => a.Date)));
    }
}
