using System.Diagnostics;
using System.Text.RegularExpressions;

namespace Homestretch.Cli.Tests;

/// <summary>What one run of the real program gave.</summary>
public sealed partial record Ran(int Status, string Output, string Errors)
{
    private static readonly string _root = FindRoot();

    /// <summary>A file of the demo, as a person in the checkout's folder names it.</summary>
    public static string Demo(string name) => "examples/museum-registrar/" + name;

    /// <summary>A path in the checkout.</summary>
    public static string InCheckout(params string[] parts) => Path.Combine([_root, .. parts]);

    /// <summary>Runs the built program in the checkout's folder, with the .NET that runs these tests.</summary>
    public static Task<Ran> Program(params string[] args) => ProgramWith([], args);

    /// <summary>The same with variables of its environment.</summary>
    public static async Task<Ran> ProgramWith(Dictionary<string, string> variables, params string[] args)
    {
        ProcessStartInfo start = new("dotnet", [Path.Combine(AppContext.BaseDirectory, "homestretch.dll"), .. args])
        {
            WorkingDirectory = _root,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach ((string name, string value) in variables)
        {
            start.Environment[name] = value;
        }

        using Process process = Process.Start(start)!;
        process.StandardInput.Close();
        CancellationToken cancellation = TestContext.Current.CancellationToken;
        Task<string> output = process.StandardOutput.ReadToEndAsync(cancellation);
        Task<string> errors = process.StandardError.ReadToEndAsync(cancellation);
        await process.WaitForExitAsync(cancellation);
        return new(process.ExitCode, await output, await errors);
    }

    /// <summary>Lines of standard error.</summary>
    public string[] ErrorLines => Errors.Split('\n', StringSplitOptions.RemoveEmptyEntries);

    /// <summary>Bad input as the contract has it: status 1, nothing on standard output, every line <c>file:line: message</c>, no trace of the program's inside.</summary>
    public void AssertBadInput()
    {
        Assert.Equal(1, Status);
        Assert.Equal("", Output);
        Assert.NotEmpty(ErrorLines);
        Assert.All(ErrorLines, line => Assert.Matches(ProblemLine(), line));
        AssertNoTrace();
    }

    /// <summary>Wrong usage: status 2, nothing on standard output, one line with a hint.</summary>
    public string AssertWrongUsage()
    {
        Assert.Equal(2, Status);
        Assert.Equal("", Output);
        string line = Assert.Single(ErrorLines);
        Assert.Matches("^homestretch: .+ Try 'homestretch ([a-z-]+ )?--help'\\.$", line);
        AssertNoTrace();
        return line;
    }

    /// <summary>No stack trace, no exception's name, no terminal control characters.</summary>
    public void AssertNoTrace()
    {
        Assert.DoesNotMatch(@"(?m)^\s+at \S+\(|\w+Exception\b|Unhandled", Errors + Output);
        Assert.DoesNotContain('\u001b', Errors + Output);
    }

    [GeneratedRegex(@"^.+:[1-9][0-9]*: \S.*[.?)]$")]
    private static partial Regex ProblemLine();

    private static string FindRoot()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Homestretch.slnx")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException("These tests run inside a checkout.");
    }
}
