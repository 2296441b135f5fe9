using System.Collections.Immutable;

using Homestretch.Cli.Prose;
using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Measurement;
using Homestretch.Core.Planning;
using Homestretch.Core.Standing;
using Homestretch.Files;
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
        ImmutableArray<Attempt> sittings = Choose(sheet!, settings, inputs);
        inputs.Check();

        ItemScores scores = ItemScores.FromAttempts(exam!, sittings)!;
        CandidateGains[] room = [.. sittings
            .Select(a => a.Candidate)
            .Distinct(StringComparer.OrdinalIgnoreCase)
            .AsParallel().AsOrdered()
            .Select(name => Gains(exam!, sheet!.AttemptsOf(name)))];
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

    private static CandidateGains Gains(Exam exam, ImmutableArray<Attempt> attempts)
    {
        CandidateStanding standing = StandingCalculator.Calculate(exam, attempts, attempts.Max(a => a.Date));
        return new CandidateGains(standing, [.. WorthCalculator.NextMinutes(standing).Select(w => w.PassGain)]);
    }

    // The sittings of the test that was named, or of the diagnostic that most people took.
    private static ImmutableArray<Attempt> Choose(EvidenceSheet sheet, DiagnosticSettings settings, Inputs inputs)
    {
        string path = settings.EvidencePaths[0];
        IGrouping<string, Attempt>[] tests = [.. sheet.Attempts
            .Where(a => a.Observations.Any(o => o is ItemResponse))
            .GroupBy(a => a.Name, StringComparer.OrdinalIgnoreCase)];
        if (tests.Length == 0)
        {
            inputs.Refuse(path, "The evidence has no answers item by item; a test can only be judged by those (columns 'item' and 'correct', or 'item', 'chosen' and 'key').");
            return [];
        }

        IGrouping<string, Attempt>? test = settings.Attempt is { } name
            ? tests.FirstOrDefault(t => string.Equals(t.Key, name.Trim(), StringComparison.OrdinalIgnoreCase))
            : tests.OrderByDescending(t => t.Any(a => a.Kind == AttemptKind.Diagnostic)).ThenByDescending(t => t.Count()).First();
        if (test is null)
        {
            string[] names = [.. tests.Select(t => t.Key)];
            string near = NearestName.Suggest(settings.Attempt!, names) is { } n ? $"; did you mean '{n}'?" : ".";
            inputs.Refuse(path, $"There is no test '{settings.Attempt}' with answers item by item in the evidence{near} It names: {string.Join(", ", names.Take(20))}.");
            return [];
        }

        if (ItemScores.Contradiction(test) is { } contradiction)
        {
            inputs.Refuse(path, $"The sittings named '{test.Key}' are not of one test: {contradiction}. Give two tests two names, or mend the topic or key.");
        }

        return [.. test];
    }
}
