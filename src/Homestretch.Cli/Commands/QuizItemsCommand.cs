using Homestretch.Cli.Prose;
using Homestretch.Core.Blueprints;
using Homestretch.Files.Documents;
using Homestretch.Files.QuizItems;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>Checks and lists choice items to practise on.</summary>
public sealed class QuizItemsCommand(Answer answer) : Command<QuizItemsSettings>
{
    /// <inheritdoc/>
    public override int Execute(CommandContext context, QuizItemsSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        Inputs inputs = new();
        Exam? exam = inputs.Exam(settings.ExamPath);
        if (exam is not null && settings.Topic is { } topic && QuizItemFile.TopicProblem(exam, topic) is { } problem)
        {
            throw new UsageException($"--topic: {problem}");
        }

        QuizItemSet? set = inputs.QuizItems(settings.ItemPaths, exam, settings.Topic);
        inputs.Check();
        if (settings.Json)
        {
            answer.Output.WriteLine(DocumentJson.Write(QuizItemsDocument.Of(exam!, set!)));
        }
        else
        {
            QuizItemsProse.Write(answer.Console, exam!, set!);
        }

        return Shell.Done;
    }
}
