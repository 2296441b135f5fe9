using System.Text.Json;

using Spectre.Console;

namespace Homestretch.Cli.Tests;

/// <summary>What cannot be seen from outside: the clock, and a fault in the program.</summary>
public sealed class ShellTests
{
    private static readonly string[] _plan =
    [
        "plan", Ran.InCheckout("examples", "museum-registrar", "exam.yaml"), Ran.InCheckout("examples", "museum-registrar", "mara-venn.csv"),
        "--free", Ran.InCheckout("examples", "museum-registrar", "mara-venn.free.yaml"), "--exam-day", "2026-12-16", "--json",
    ];

    [Fact]
    public void APlanBeginsNowInThePersonsZoneUnlessSaidOtherwise()
    {
        (int status, string output, string errors) = Run(new Clock(() => new(2026, 11, 30, 1, 2, 3, TimeSpan.FromHours(9))));

        Assert.Equal("", errors);
        Assert.Equal(0, status);
        using JsonDocument plan = JsonDocument.Parse(output);
        Assert.Equal("2026-11-29T16:02:03+00:00", plan.RootElement.GetProperty("from").GetString());
    }

    [Fact]
    public void AFaultInTheProgramIsOneSentenceAndNoTrace()
    {
        (int status, string output, string errors) = Run(new Clock(() => throw new InvalidOperationException("inside\nout")));

        Assert.Equal(70, status);
        Assert.Equal("", output);
        Assert.Equal("homestretch: This is a fault in the program (InvalidOperationException), not in your files. Please report it with the command you typed.\n", errors);
    }

    private static (int Status, string Output, string Errors) Run(TimeProvider clock)
    {
        using StringWriter output = new();
        using StringWriter errors = new();
        int status = Shell.Run(_plan, clock, AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(output) }), output, errors);
        return (status, output.ToString(), errors.ToString());
    }

    private sealed class Clock(Func<DateTimeOffset> now) : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => now();
    }
}
