using Homestretch.Cli.Prose;
using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Measurement;
using Homestretch.Core.Measurement.Equating;
using Homestretch.Files;
using Homestretch.Files.Documents;
using Homestretch.Files.Evidences;
using Homestretch.Files.Pictures;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>Shows what scores on one test are worth on another.</summary>
public sealed class EquateCommand(Answer answer) : Command<EquateSettings>
{
    private const int MostNames = 20;

    /// <inheritdoc/>
    public override int Execute(CommandContext context, EquateSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        string wanted = settings.From is { } name && name.Trim().Length > 0 ? name.Trim() : throw new UsageException("Name the test whose scores are converted: --from TEST.");
        if (string.Equals(wanted, settings.To?.Trim(), StringComparison.OrdinalIgnoreCase))
        {
            throw new UsageException($"--from and --to both name '{wanted}'; equating takes two tests.");
        }

        Inputs inputs = new();
        Exam? exam = inputs.Exam(settings.ExamPath);
        EvidenceSheet? sheet = inputs.Evidence(settings.EvidencePaths, exam);
        inputs.Check();
        string path = settings.EvidencePaths[0];
        string? from = Named(sheet!, path, wanted, inputs);
        string? to = settings.To is { } other ? Named(sheet!, path, other.Trim(), inputs) : null;
        if (settings.To is null && !sheet!.Attempts.Any(a => a.Kind == AttemptKind.Official))
        {
            inputs.Refuse(path, "There is no official result in the evidence; name the test to convert to with --to.");
        }

        inputs.Check();
        BothTests both = BothTests.Find(
            sheet!.Attempts,
            a => Same(a.Name, from!),
            a => to is null ? a.Kind == AttemptKind.Official && !Same(a.Name, from!) : Same(a.Name, to));
        EquateDocument? document = Equated(exam!, from!, to ?? "the official exam", both, path, inputs);
        inputs.Check();
        if (settings.Json)
        {
            answer.Output.WriteLine(DocumentJson.Write(document!));
        }
        else
        {
            EquateProse.Write(answer.Console, document!);
        }

        return Shell.Done;
    }

    private static EquateDocument? Equated(Exam exam, string from, string to, BothTests both, string path, Inputs inputs)
    {
        try
        {
            return EquateDocument.Of(exam, from, to, both);
        }
        catch (UnsuitableDataException e)
        {
            inputs.Refuse(path, string.Join(' ', [e.Message, .. EquateDocument.LeftOut(both)]));
            return null;
        }
    }

    // As the evidence spells it.
    private static string? Named(EvidenceSheet sheet, string path, string wanted, Inputs inputs)
    {
        string[] names = [.. sheet.Attempts.Select(a => a.Name).Distinct(StringComparer.OrdinalIgnoreCase)];
        string? name = names.FirstOrDefault(n => Same(n, wanted));
        if (name is null)
        {
            string near = NearestName.Suggest(wanted, names) is { } n ? $"; did you mean '{n}'?" : ".";
            string more = names.Length > MostNames ? $" and {Figures.Plural(names.Length - MostNames, "more", "more")}" : "";
            inputs.Refuse(path, $"There is no test '{wanted}' in the evidence{near} It names: {string.Join(", ", names.Take(MostNames))}{more}.");
        }

        return name;
    }

    private static bool Same(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);
}
