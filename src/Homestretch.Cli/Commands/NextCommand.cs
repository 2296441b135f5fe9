using Homestretch.Cli.Prose;
using Homestretch.Core.AdaptiveTesting;
using Homestretch.Core.Standing;
using Homestretch.Files.Documents;
using Homestretch.Files.StudyLogs;

using NodaTime;
using NodaTime.Extensions;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>Chooses the next item of a quick diagnostic, or says why it may stop.</summary>
public sealed class NextCommand(Answer answer, TimeProvider clock) : Command<NextSettings>
{
    /// <inheritdoc/>
    public override int Execute(CommandContext context, NextSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        DiagnosticRules rules = RulesOf(settings);
        LocalDate? asOf = settings.AsOf is { } text ? MomentText.Date("--as-of", text) : null;
        if (settings.BankPath is null)
        {
            throw new UsageException("next needs the items to choose from: --bank BANK.csv.");
        }

        if (settings.IsNew && string.IsNullOrWhiteSpace(settings.Candidate))
        {
            throw new UsageException("Somebody without results has to be named: --candidate NAME.");
        }

        Inputs inputs = new();
        StudiedCandidate? candidate = inputs.CandidateOrNewcomer(settings, inputs.Exam(settings.ExamPath));
        inputs.Check();

        StudiedCandidate person = candidate!;
        ItemBank bank = person.Basis.Bank!;
        LocalDate day = asOf ?? (person.Attempts.IsEmpty ? clock.GetUtcNow().ToInstant().InUtc().Date : person.LastDay);
        CandidateStanding standing = person.On(day).Standing;
        DiagnosticStep step = NextItemFinder.Find(standing, bank, GivenItems.Count(bank, person.Attempts, person.AttemptsOfOthers, day), rules, settings.Count, person.Name);
        if (settings.Json)
        {
            answer.Output.WriteLine(DocumentJson.Write(NextDocument.Of(person, standing, step)));
        }
        else
        {
            NextProse.Write(answer.Console, person, standing, step);
        }

        return Shell.Done;
    }

    private static DiagnosticRules RulesOf(NextSettings settings)
    {
        DiagnosticRules rules = DiagnosticRules.Default;
        rules = rules with
        {
            Target = settings.Find switch
            {
                "pass" => DiagnosticTarget.PassChance,
                "levels" => DiagnosticTarget.Bands,
                _ => throw new UsageException($"--find is 'pass' or 'levels'; '{settings.Find}' is neither."),
            },
            AtLeast = Within("--at-least", settings.AtLeast ?? Math.Min(rules.AtLeast, settings.AtMost ?? rules.AtLeast), 0, 500),
            AtMost = Within("--at-most", settings.AtMost ?? Math.Max(rules.AtMost, settings.AtLeast ?? rules.AtMost), 1, 500),
            MostExposure = Within("--exposure", settings.Exposure ?? (int)(100 * rules.MostExposure), 1, 100) / 100.0,
            AmongBest = Within("--among", settings.Among ?? rules.AmongBest, 1, 100),
        };
        Within("--count", settings.Count, 1, 500);
        return rules.AtLeast <= rules.AtMost
            ? rules
            : throw new UsageException($"--at-least {rules.AtLeast} is more than --at-most {rules.AtMost}.");
    }

    private static int Within(string option, int value, int low, int high)
        => value >= low && value <= high ? value : throw new UsageException($"{option} is a whole number from {low} to {high}; {value} is not.");
}
