using System.Collections.Immutable;

using Homestretch.Cli.Prose;
using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;
using Homestretch.Files.Documents;
using Homestretch.Files.Evidences;
using Homestretch.Files.ItemBanks;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>Calibrates the items of a test that several people took.</summary>
public sealed class ItemsCommand(Answer answer) : Command<ItemsSettings>
{
    /// <inheritdoc/>
    public override int Execute(CommandContext context, ItemsSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        ItemModel? model = settings.Model is { } name ? ModelNamed(name) : null;
        OutputFile.CheckPlaces([settings.ExamPath, .. settings.EvidencePaths], [settings.BankPath]);
        Inputs inputs = new();
        Exam? exam = inputs.Exam(settings.ExamPath);
        EvidenceSheet? sheet = inputs.Evidence(settings.EvidencePaths, exam);
        inputs.Check();
        string path = settings.EvidencePaths[0];
        ImmutableArray<Attempt> sittings = ChosenTest.Of(sheet!, path, settings.Attempt, inputs);
        inputs.Check();

        ItemCalibration? calibration = Calibrate(ItemScores.FromAttempts(exam!, sittings)!, model, path, inputs, cancellationToken);
        inputs.Check();
        string test = sittings[0].Name;
        List<OutputFile> files = settings.BankPath is { } bank ? [new(bank, ItemBankFile.Write(calibration!.ToBank(settings.AnyTest ? null : test)))] : [];
        string? document = settings.Json ? DocumentJson.Write(ItemsDocument.Of(exam!, test, calibration!)) : null;
        OutputFile.WriteAll(files);
        if (document is not null)
        {
            answer.Output.WriteLine(document);
        }
        else
        {
            ItemsProse.Write(answer.Console, test, calibration!, files);
        }

        return Shell.Done;
    }

    private static ItemCalibration? Calibrate(ItemScores scores, ItemModel? model, string path, Inputs inputs, CancellationToken cancellation)
    {
        try
        {
            return ItemCalibration.Of(scores, model, cancellation);
        }
        catch (UnsuitableDataException e)
        {
            inputs.Refuse(path, e.Message);
            return null;
        }
    }

    private static ItemModel ModelNamed(string name)
        => Enum.GetValues<ItemModel>().Where(m => Words.Of(m) == name).Cast<ItemModel?>().FirstOrDefault()
            ?? throw new UsageException($"--model is rasch, 2pl or 3pl; '{name}' is none of them.");
}
