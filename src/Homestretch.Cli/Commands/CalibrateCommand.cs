using System.Collections.Immutable;

using Homestretch.Cli.Prose;
using Homestretch.Core.Blueprints;
using Homestretch.Core.Calibration;
using Homestretch.Core.Evidence;
using Homestretch.Core.Measurement;
using Homestretch.Files;
using Homestretch.Files.Documents;
using Homestretch.Files.Evidences;
using Homestretch.Files.Pictures;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>Shows how well pass chances hold.</summary>
public sealed class CalibrateCommand(Answer answer) : Command<CalibrateSettings>
{
    private const int MostSplits = 100_000;
    private const int DefaultSeed = 1;

    /// <inheritdoc/>
    public override int Execute(CommandContext context, CalibrateSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        CheckOptions(settings);
        OutputFile.CheckPlaces([settings.ExamPath, .. settings.EvidencePaths], [settings.PicturePath]);
        Inputs inputs = new();
        Exam? exam = inputs.Exam(settings.ExamPath);
        EvidenceSheet? sheet = inputs.Evidence(settings.EvidencePaths, exam);
        inputs.Check();

        CalibrationReport? report = settings.Splits is { } splits
            ? OfSplit(exam!, sheet!, settings, splits, inputs, cancellationToken)
            : OfOutcomes(exam!, sheet!, settings, inputs, cancellationToken);
        inputs.Check();
        if (settings.PicturePath is { } path)
        {
            OutputFile.WriteAll([new(path, ReliabilityDiagram.File(report!))]);
        }

        if (settings.Json)
        {
            answer.Output.WriteLine(DocumentJson.Write(CalibrationDocument.Of(report!)));
        }
        else
        {
            CalibrationProse.Write(answer.Console, report!, settings.PicturePath);
        }

        return Shell.Done;
    }

    private static void CheckOptions(CalibrateSettings settings)
    {
        if (settings.Splits is null)
        {
            string? stray = settings.Seed is not null ? "--seed" : settings.Attempt is not null ? "--attempt" : settings.ExamSat ? "--exam-sat" : null;
            if (stray is not null)
            {
                throw new UsageException($"{stray} goes with --split only.");
            }
        }
        else if (settings.Outcome is not null)
        {
            throw new UsageException("--outcome and --split are two ways to ask; give one of them.");
        }
        else if (settings.Splits is < 1 or > MostSplits)
        {
            throw new UsageException($"--split is a whole number from 1 to {MostSplits}; '{settings.Splits}' is not.");
        }
    }

    private CalibrationReport? OfOutcomes(Exam exam, EvidenceSheet sheet, CalibrateSettings settings, Inputs inputs, CancellationToken cancellation)
    {
        string path = settings.EvidencePaths[0];
        if (settings.Outcome is { } name && !sheet.Attempts.Any(a => string.Equals(a.Name, name.Trim(), StringComparison.OrdinalIgnoreCase)))
        {
            string[] names = [.. sheet.Attempts.Select(a => a.Name).Distinct(StringComparer.OrdinalIgnoreCase)];
            string near = NearestName.Suggest(name, names) is { } n ? $"; did you mean '{n}'?" : ".";
            inputs.Refuse(path, $"There is no attempt '{name}' in the evidence{near} It names: {string.Join(", ", names.Take(20))}.");
            return null;
        }

        OutcomeStudyResult result = LongWork.Run(
            answer.Errors, "Forecasting", sheet.Candidates.Length, (progress, token) => OutcomeStudy.Run(exam, sheet.Attempts, settings.Outcome?.Trim(), progress, token), cancellation);
        if (result.Table is null)
        {
            string people = result.People.Length == 1 ? "1 person has" : $"{result.People.Length} people have";
            string what = settings.Outcome is { } o ? $"a result of '{o.Trim()}'" : "an official result";
            string why = CalibrationReport.WhyLeftOut(result.LeftOut) is { } sentence ? " " + sentence : "";
            inputs.Refuse(path, $"Only {people} both {what} that can be judged and earlier tests; with fewer than {OutcomeStudy.FewestPeople} nothing can be said about forecasts.{why}");
            return null;
        }

        return CalibrationReport.Of(exam, settings.Outcome?.Trim() ?? "official results", result);
    }

    private CalibrationReport? OfSplit(Exam exam, EvidenceSheet sheet, CalibrateSettings settings, int splits, Inputs inputs, CancellationToken cancellation)
    {
        ImmutableArray<Attempt> sittings = ChosenTest.Of(sheet, settings.EvidencePaths[0], settings.Attempt, inputs);
        inputs.Check();
        ItemScores scores = ItemScores.FromAttempts(exam, sittings)!;
        try
        {
            SplitStudyResult result = LongWork.Run(
                answer.Errors,
                "Splitting the test",
                splits,
                (progress, token) => SplitStudy.Run(exam, scores, new SplitStudyOptions(splits, settings.Seed ?? DefaultSeed) { ExamSatBefore = settings.ExamSat }, progress, token),
                cancellation);
            return CalibrationReport.Of(exam, sittings[0].Name, result);
        }
        catch (UnsuitableDataException e)
        {
            inputs.Refuse(settings.EvidencePaths[0], e.Message);
            return null;
        }
    }
}
