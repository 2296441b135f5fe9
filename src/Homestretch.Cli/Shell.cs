using System.Globalization;
using System.Reflection;

using Homestretch.Cli.Commands;

using Spectre.Console;
using Spectre.Console.Cli;

namespace Homestretch.Cli;

/// <summary>The program as a shell sees it: arguments in, text and an exit status out.</summary>
public static class Shell
{
    /// <summary>Done.</summary>
    public const int Done = 0;

    /// <summary>A file could not be read, understood or written; every problem is on standard error as <c>file:line: message</c>.</summary>
    public const int BadInput = 1;

    /// <summary>The command line makes no sense.</summary>
    public const int WrongUsage = 2;

    /// <summary>A fault in the program itself (EX_SOFTWARE).</summary>
    public const int Fault = 70;

    /// <summary>Stopped by Ctrl+C (128 + SIGINT).</summary>
    public const int Stopped = 130;

    private static readonly string[] _commands =
    [
        "exam",
        "standing",
        "forecast",
        "plan",
        "assumptions",
        "decide",
        "diagnostic",
        "items",
        "quiz-items",
        "next",
        "equate",
        "words",
        "calibrate",
        "simulate",
        "export",
        "import",
    ];

    private static readonly HashSet<string> _optionsWithValue =
    [
        "--candidate",
        "--as-of",
        "--free",
        "--busy",
        "--exam-day",
        "--from",
        "--to",
        "--policy",
        "--ics",
        "--handout",
        "--pdf",
        "--paper",
        "--attempt",
        "--outcome",
        "--split",
        "--picture",
        "--scenario",
        "--candidates",
        "--seed",
        "--date",
        "--weeks",
        "--target",
        "--postpone-fee",
        "--retake-fee",
        "--postpone-until",
        "--last-date",
        "--hours",
        "--topic",
        "--items",
        "--minutes",
        "--log",
        "--cohort",
        "--bank",
        "--resources",
        "--model",
        "--out",
        "--count",
        "--find",
        "--at-least",
        "--at-most",
        "--exposure",
        "--among",
        "--data",
        "--database",
        "--before",
        "--move-cost",
        "--today",
        "--cards",
        "--answer",
        "--avoid",
        "--include",
        "--pin",
    ];

    /// <summary>Runs one command.</summary>
    /// <param name="args">The command line after the program's name.</param>
    /// <param name="clock">What time it is.</param>
    /// <param name="console">Where people read.</param>
    /// <param name="output">Standard output, for documents.</param>
    /// <param name="errors">Standard error.</param>
    /// <returns>The exit status.</returns>
    public static int Run(IReadOnlyList<string> args, TimeProvider clock, IAnsiConsole console, TextWriter output, TextWriter errors)
    {
        ArgumentNullException.ThrowIfNull(args);
        ArgumentNullException.ThrowIfNull(errors);

        // Figures and dates read the same on every machine.
        CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
        CultureInfo.CurrentUICulture = CultureInfo.InvariantCulture;
        try
        {
            if (args.Count == 0)
            {
                throw new UsageException($"Say what to do: {string.Join(", ", _commands[..^1])} or {_commands[^1]}.");
            }

            RefuseMissingValues(args);
            return App(clock, console, output, errors).Run(args, CancellationToken.None);
        }
        catch (BadInputException e)
        {
            foreach (Files.FileProblem problem in e.Problems)
            {
                errors.WriteLine(problem);
            }

            return BadInput;
        }
        catch (Exception e) when (e is UsageException or CommandAppException)
        {
            errors.WriteLine($"homestretch: {OneLine(e.Message)} Try 'homestretch {Topic(args)}--help'.");
            return WrongUsage;
        }
        catch (OperationCanceledException)
        {
            errors.WriteLine("homestretch: Stopped.");
            return Stopped;
        }
#pragma warning disable CA1031 // The last resort: whatever went wrong, a person gets a sentence and not a stack trace.
        catch (Exception e)
#pragma warning restore CA1031
        {
            errors.WriteLine($"homestretch: This is a fault in the program ({e.GetType().Name}), not in your files. Please report it with the command you typed.");
            return Fault;
        }
    }

    /// <summary>The parser fills in a name of its own where an option's value is missing, and the command would take that for a file or a person.</summary>
    private static void RefuseMissingValues(IReadOnlyList<string> args)
    {
        for (int i = 0; i < args.Count; i++)
        {
            if (_optionsWithValue.Contains(args[i]) && (i + 1 == args.Count || args[i + 1].StartsWith("--", StringComparison.Ordinal)))
            {
                throw new UsageException($"{args[i]} needs a value after it.");
            }
        }
    }

    private static CommandApp App(TimeProvider clock, IAnsiConsole console, TextWriter output, TextWriter errors)
    {
        CommandApp app = new();
        app.Configure(config =>
        {
            config.SetApplicationName("homestretch");
            config.SetApplicationVersion(typeof(Shell).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!.InformationalVersion.Split('+')[0]);
            config.ConfigureConsole(console);
            config.PropagateExceptions();
            config.UseStrictParsing();
            config.Settings.Registrar.RegisterInstance(clock);
            config.Settings.Registrar.RegisterInstance(new Answer(console, output, errors));
            config.AddCommand<ExamCommand>("exam")
                .WithDescription("Shows an exam's blueprint: items per topic, pass marks, retake rules.")
                .WithExample("exam", "examples/museum-registrar/exam.yaml");
            config.AddCommand<StandingCommand>("standing")
                .WithDescription("Shows where a person stands on each topic, and how sure that is.")
                .WithExample("standing", "examples/museum-registrar/exam.yaml", "examples/museum-registrar/mara-venn.csv");
            config.AddCommand<ForecastCommand>("forecast")
                .WithDescription("Shows the chance of passing as things stand, and what half an hour on each topic is worth.")
                .WithExample("forecast", "examples/museum-registrar/exam.yaml", "examples/museum-registrar/mara-venn.csv", "--json");
            config.AddCommand<PlanCommand>("plan")
                .WithDescription("Lays a study plan into a person's free time, as a table, a calendar file and a handout to print.")
                .WithExample(
                    "plan", "examples/museum-registrar/exam.yaml", "examples/museum-registrar/mara-venn.csv",
                    "--free", "examples/museum-registrar/mara-venn.free.yaml", "--busy", "examples/museum-registrar/mara-venn.busy.ics",
                    "--from", "2026-11-25T08:00", "--exam-day", "2026-12-16", "--ics", "plan.ics", "--handout", "plan.html");
            config.AddCommand<AssumptionsCommand>("assumptions")
                .WithDescription("Shows which of the model's assumptions a plan and its pass chance hang on.")
                .WithExample(Demo("assumptions"));
            config.AddCommand<DiagnosticCommand>("diagnostic")
                .WithDescription("Shows whether a test that several people took deserves trust: its items, reliability, coverage and topics.")
                .WithExample("diagnostic", "examples/museum-registrar/exam.yaml", "examples/museum-registrar/cohort.csv");
            config.AddCommand<ItemsCommand>("items")
                .WithDescription("Calibrates the items of a test that 30 or more people took, and keeps them in an item bank.")
                .WithExample("items", "examples/museum-registrar/exam.yaml", "examples/museum-registrar/cohort.csv", "--out", "bank.csv");
            config.AddCommand<QuizItemsCommand>("quiz-items")
                .WithDescription("Checks and lists choice items to practise on, from sheets and from QTI items and packages (docs/quiz-items.md).")
                .WithExample("quiz-items", "examples/museum-registrar/exam.yaml", "examples/museum-registrar/quiz-items.csv");
            config.AddCommand<EquateCommand>("equate")
                .WithDescription("Shows what scores on one test are worth on another that 30 or more people took too, such as the official exam.")
                .WithExample("equate", "examples/museum-registrar/exam.yaml", "rooms.csv", "--from", "Practice A", "--to", "official exam");
            config.AddCommand<SimulateCommand>("simulate")
                .WithDescription("Tries the planner against other ways to study, on simulated candidates in worlds that are not as it assumes.")
                .WithExample("simulate", "--scenario", "as-assumed", "--scenario", "missed-sessions", "--candidates", "2000");
            config.AddCommand<CalibrateCommand>("calibrate")
                .WithDescription("Shows how well pass chances hold: against later outcomes, or on one test that is split in two.")
                .WithExample("calibrate", "examples/museum-registrar/exam.yaml", "examples/museum-registrar/cohort.csv", "examples/museum-registrar/outcomes.csv")
                .WithExample("calibrate", "examples/museum-registrar/exam.yaml", "examples/museum-registrar/cohort.csv", "--split", "100", "--picture", "held.svg");
            config.AddBranch("decide", decide =>
            {
                decide.SetDescription("Sit or postpone, more hours, one more test: the figures for a decision.");
                decide.AddCommand<DecideDateCommand>("date")
                    .WithDescription("Compares exam dates: pass chance with the best plan, fees, and what the owner's rules allow.")
                    .WithExample(Demo("decide", "date", "--retake-fee", "180", "--postpone-fee", "40"));
                decide.AddCommand<DecideHoursCommand>("hours")
                    .WithDescription("Compares hours a week, and says when more would add nothing.")
                    .WithExample(Demo("decide", "hours"));
                decide.AddCommand<DecideTestCommand>("test")
                    .WithDescription("Says what one more practice exam or quiz would change, and what its minutes cost.")
                    .WithExample(Demo("decide", "test", "--topic", "Cataloguing", "--items", "12"));
            });
            config.AddCommand<NextCommand>("next")
                .WithDescription("Chooses the next item of a quick diagnostic from a calibrated item bank, or says why it may stop.")
                .WithExample(
                    "next", "examples/museum-registrar/exam.yaml", "examples/museum-registrar/quick.csv",
                    "--bank", "examples/museum-registrar/bank.csv", "--candidate", "Lena Ostrow")
                .WithExample("next", "examples/museum-registrar/exam.yaml", "--bank", "examples/museum-registrar/bank.csv", "--candidate", "Una Marl", "--count", "5");
            config.AddCommand<WordsCommand>("words")
                .WithDescription("Chooses which unknown words to recall today so that as many as possible are known on exam day, and prints them as cards.")
                .WithExample("words", "examples/museum-registrar/exam.yaml", "examples/museum-registrar/mara-venn.words.csv", "--today", "2026-12-02", "--exam-day", "2026-12-16", "--minutes", "3");
            config.AddCommand<ExportCommand>("export")
                .WithDescription("Writes everything that the browser pages keep as a zip of files.")
                .WithExample("export", "homestretch.zip");
            config.AddCommand<ImportCommand>("import")
                .WithDescription("Reads an export into the store of the browser pages, all of it or nothing.")
                .WithExample("import", "homestretch.zip", "--data", "another-folder");
        });
        return app;
    }

    private static string[] Demo(string command, string question, params string[] more) => [command, .. Demo(question), .. more];

    private static string[] Demo(string command) =>
    [
        command, "examples/museum-registrar/exam.yaml", "examples/museum-registrar/mara-venn.csv", "--free", "examples/museum-registrar/mara-venn.free.yaml",
        "--busy", "examples/museum-registrar/mara-venn.busy.ics", "--from", "2026-11-25T08:00", "--exam-day", "2026-12-16",
    ];

    private static string OneLine(string message)
    {
        string line = string.Join(' ', message.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        return line.EndsWith('.') || line.EndsWith('?') ? line : line + ".";
    }

    private static string Topic(IReadOnlyList<string> args)
        => args.Count > 0 && _commands.Contains(args[0]) ? args[0] + " " : "";
}
