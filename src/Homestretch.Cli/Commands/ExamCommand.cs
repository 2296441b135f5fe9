using Homestretch.Cli.Prose;
using Homestretch.Core.Blueprints;
using Homestretch.Files.Documents;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>Shows an exam's blueprint.</summary>
public sealed class ExamCommand(Answer answer) : Command<ExamSettings>
{
    /// <inheritdoc/>
    public override int Execute(CommandContext context, ExamSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        Inputs inputs = new();
        Exam? exam = inputs.Exam(settings.ExamPath);
        inputs.Check();
        if (settings.Json)
        {
            answer.Output.WriteLine(DocumentJson.Write(ExamDocument.Of(exam!)));
        }
        else
        {
            ExamProse.Write(answer.Console, exam!);
        }

        return Shell.Done;
    }
}
