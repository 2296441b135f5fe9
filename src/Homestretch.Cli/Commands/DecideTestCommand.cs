using Homestretch.Cli.Prose;
using Homestretch.Core.Blueprints;
using Homestretch.Core.Deciding;
using Homestretch.Files;
using Homestretch.Files.Documents;

using NodaTime.Text;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>One more practice exam, or a quiz: what would it change, and what does it cost?</summary>
public sealed class DecideTestCommand(Answer answer, TimeProvider clock) : Command<DecideTestSettings>
{
    private const int UsualItems = 10;
    private const int MostItems = 200;
    private const int MostMinutes = 1440;

    /// <inheritdoc/>
    public override int Execute(CommandContext context, DecideTestSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        if (settings.Items is { } items && (items is < 1 or > MostItems || settings.Topic is null))
        {
            throw new UsageException(settings.Topic is null ? "--items goes with --topic: a practice exam has the exam's items." : $"--items is a whole number from 1 to {MostItems}; {items} is not.");
        }

        if (settings.Minutes is < 1 or > MostMinutes)
        {
            throw new UsageException($"--minutes is a whole number from 1 to {MostMinutes}; {settings.Minutes} is not.");
        }

        PersonsTime person = PersonsTime.Read("decide test", settings, clock);
        Exam exam = person.Standing.Exam;
        ProposedTest test = settings.Topic is { } name ? ProposedTest.Quiz(exam, TopicNamed(exam, name), settings.Items ?? UsualItems) : ProposedTest.PracticeExam(exam);
        if (settings.Minutes is { } minutes)
        {
            test = test with { Minutes = minutes };
        }

        TestValue value = TestAdvisor.Value(person.Standing, person.Attempts, person.Free, person.Busy, person.From, person.ExamDay, test, person.Basis.Bank, cancellation: cancellationToken)
            ?? throw new UsageException(
                $"The free time up to {LocalDatePattern.Iso.Format(person.ExamDay)} does not hold a test of {test.Minutes} minutes before the last, light days; give fewer --minutes or a later --exam-day.");
        if (settings.Json)
        {
            answer.Output.WriteLine(DocumentJson.Write(TestValueDocument.Of(person.Candidate, person.Standing, person.Basis, value)));
        }
        else
        {
            DecisionProse.Write(answer.Console, person, value);
        }

        return Shell.Done;
    }

    private static int TopicNamed(Exam exam, string name)
    {
        string[] names = [.. exam.Topics.Select(t => t.Name)];
        int topic = Array.FindIndex(names, n => string.Equals(n, name.Trim(), StringComparison.OrdinalIgnoreCase));
        return topic >= 0
            ? topic
            : throw new UsageException($"--topic: the exam has no topic '{name}'{(NearestName.Suggest(name, names) is { } near ? $"; did you mean '{near}'?" : ".")} It has: {string.Join(", ", names)}.");
    }
}
