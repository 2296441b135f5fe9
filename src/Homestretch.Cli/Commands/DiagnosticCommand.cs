using System.Collections.Immutable;

using Homestretch.Cli.Prose;
using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Measurement;
using Homestretch.Core.Planning;
using Homestretch.Core.Standing;
using Homestretch.Files.Documents;
using Homestretch.Files.Evidences;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>Shows whether a test that several people took deserves trust.</summary>
public sealed class DiagnosticCommand(Answer answer) : Command<DiagnosticSettings>
{
    /// <inheritdoc/>
    public override int Execute(CommandContext context, DiagnosticSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        Inputs inputs = new();
        Exam? exam = inputs.Exam(settings.ExamPath);
        EvidenceSheet? sheet = inputs.Evidence(settings.EvidencePaths, exam);
        inputs.Check();
        ImmutableArray<Attempt> sittings = ChosenTest.Of(sheet!, settings.EvidencePaths[0], settings.Attempt, inputs);
        inputs.Check();

        ItemScores scores = ItemScores.FromAttempts(exam!, sittings)!;
        StandingBasis basis = StandingBasis.Of(exam!, sheet!.Attempts);
        CandidateGains[] room = [.. sittings
            .Select(a => a.Candidate)
            .Distinct(StringComparer.OrdinalIgnoreCase)
            .AsParallel().AsOrdered()
            .Select(name => Gains(basis, sheet.AttemptsOf(name)))];
        TestReview review = TestReviewer.Review(exam!, scores, room);
        if (settings.Json)
        {
            answer.Output.WriteLine(DocumentJson.Write(DiagnosticDocument.Of(exam!, sittings[0].Name, review)));
        }
        else
        {
            DiagnosticProse.Write(answer.Console, exam!, sittings[0].Name, review);
        }

        return Shell.Done;
    }

    private static CandidateGains Gains(StandingBasis basis, ImmutableArray<Attempt> attempts)
    {
        CandidateStanding standing = basis.Standing(attempts, attempts.Max(a => a.Date));
        return new CandidateGains(standing, [.. WorthCalculator.NextMinutes(standing).Select(w => w.PassGain)]);
    }
}
