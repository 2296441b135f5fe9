using Spectre.Console;

namespace Homestretch.Cli;

/// <summary>Work that takes a while: with a bar on standard error where a person is watching, silent otherwise.</summary>
internal static class LongWork
{
    /// <summary>Does the work. Where a person is watching, Ctrl+C stops it and puts the terminal in order.</summary>
    /// <param name="errors">Standard error.</param>
    /// <param name="what">What is being done, as a heading for the bar.</param>
    /// <param name="steps">How many steps there are; each report counts as one.</param>
    /// <param name="work">The work.</param>
    /// <param name="cancellation">Stops it.</param>
    public static T Run<T>(TextWriter errors, string what, int steps, Func<IProgress<int>?, CancellationToken, T> work, CancellationToken cancellation)
    {
        IAnsiConsole console = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(errors) });
        if (!console.Profile.Out.IsTerminal || !console.Profile.Capabilities.Interactive)
        {
            return work(null, cancellation);
        }

        using CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        void Stop(object? sender, ConsoleCancelEventArgs e)
        {
            e.Cancel = true;
            stop.Cancel();
        }

        Console.CancelKeyPress += Stop;
        try
        {
            return console.Progress().AutoClear(true).Start(context =>
            {
                ProgressTask task = context.AddTask(what, maxValue: steps);
                return work(new Steps(task), stop.Token);
            });
        }
        finally
        {
            Console.CancelKeyPress -= Stop;
        }
    }

    // Progress<T> would report later, on another thread, when the bar may be gone.
    private sealed class Steps(ProgressTask task) : IProgress<int>
    {
        public void Report(int value) => task.Increment(1);
    }
}
