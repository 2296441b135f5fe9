using System.Collections.Immutable;

using Homestretch.Cli.Prose;
using Homestretch.Core.Blueprints;
using Homestretch.Core.Words;
using Homestretch.Files;
using Homestretch.Files.Documents;
using Homestretch.Files.Handouts;
using Homestretch.Files.WordLists;

using NodaTime;
using NodaTime.Extensions;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>Chooses the words to recall today.</summary>
public sealed class WordsCommand(Answer answer, TimeProvider clock) : Command<WordsSettings>
{
    private const int MostMinutes = 240;

    /// <inheritdoc/>
    public override int Execute(CommandContext context, WordsSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        LocalDate examDay = MomentText.Date("--exam-day", settings.ExamDay ?? throw new UsageException("words needs the day of the exam: --exam-day 2026-12-16."));
        LocalDate today = settings.Today is { } named ? MomentText.Date("--today", named) : clock.GetLocalNow().DateTime.ToLocalDateTime().Date;
        if (today >= examDay)
        {
            throw new UsageException($"--exam-day {examDay:uuuu-MM-dd} is not after {today:uuuu-MM-dd}; there is no day left for words.");
        }

        if (settings.Minutes is < 1 or > MostMinutes)
        {
            throw new UsageException($"--minutes is a whole number from 1 to {MostMinutes}; {settings.Minutes} is not.");
        }

        OutputFile.CheckPlaces([settings.ExamPath, .. settings.WordPaths], [settings.CardsPath, settings.OutPath]);
        Inputs inputs = new();
        Exam? exam = inputs.Exam(settings.ExamPath);
        WordList? read = inputs.Words(settings.WordPaths, exam);
        inputs.Check();
        WordList list = settings.Answers.Aggregate(read!, (words, text) => Answered(words, text, today));

        WordPlan plan = WordPlanner.Plan(list.Words, today, examDay, WordAssumptions.Default.Recalls(settings.Minutes));
        List<OutputFile> files = [];
        if (settings.CardsPath is { } cards)
        {
            files.Add(new(cards, Cards.Html(exam!.Name, list.Words)));
        }

        if (settings.OutPath is { } path)
        {
            files.Add(new(path, WordFile.Write(list)));
        }

        string? document = settings.Json ? DocumentJson.Write(WordsDocument.Of(exam!.Name, plan)) : null;
        OutputFile.WriteAll(files);
        if (document is not null)
        {
            answer.Output.WriteLine(document);
        }
        else
        {
            WordsProse.Write(answer.Console, plan, list.Words.Length, files);
        }

        return Shell.Done;
    }

    private static WordList Answered(WordList list, string text, LocalDate today)
    {
        // A term may hold the sign itself; an outcome does not.
        int sign = text.LastIndexOf('=');
        string term = sign < 0 ? "" : text[..sign].Trim();
        if (sign < 0 || OutcomeNames.Find(text[(sign + 1)..]) is not { } outcome)
        {
            throw new UsageException($"--answer is a term and {OutcomeNames.Accepted}, such as 'provenance=knew'; '{text}' is not.");
        }

        Word? word = list.Words.FirstOrDefault(w => string.Equals(w.Term, term, StringComparison.OrdinalIgnoreCase));
        if (word is null)
        {
            string near = NearestName.Suggest(term, list.Words.Select(w => w.Term)) is { } name ? $"did you mean '{name}'?" : "note it in the file first.";
            throw new UsageException($"--answer: there is no word '{term}'; {near}");
        }

        if (word.Noted > today)
        {
            throw new UsageException($"--answer: '{word.Term}' was noted on {word.Noted:uuuu-MM-dd}, after {today:uuuu-MM-dd}.");
        }

        ImmutableArray<RecallAnswer> answers = [.. word.Answers.Append(new(today, outcome)).OrderBy(a => a.Day)];
        return new(list.Words.Replace(word, word with { Answers = answers }));
    }
}
