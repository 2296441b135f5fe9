using System.Diagnostics;
using System.Globalization;
using System.Reflection;
using System.Text;

namespace Homestretch.Web.Tests;

/// <summary>The built program, running on a free loopback port with its own data folder.</summary>
public sealed class ServerProcess : IAsyncDisposable
{
    private const string Mark = "Now listening on: ";

    private static readonly TimeSpan LongestStart = TimeSpan.FromSeconds(60);

    private readonly Process _process;
    private readonly StringBuilder _output = new();

    private ServerProcess(Process process) => _process = process;

    /// <summary>Where it listens.</summary>
    public Uri Address { get; private set; } = null!;

    /// <summary>Processor time it has used so far, on all cores.</summary>
    public TimeSpan ProcessorTime
    {
        get
        {
            _process.Refresh();
            return _process.TotalProcessorTime;
        }
    }

    /// <summary>What it has printed so far.</summary>
    public string Output
    {
        get
        {
            lock (_output)
            {
                return _output.ToString();
            }
        }
    }

    /// <summary>A value that the build left in this assembly.</summary>
    public static string BuildValue(string key)
        => typeof(ServerProcess).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>().Single(a => a.Key == key).Value!;

    /// <summary>Everywhere it listens.</summary>
    public IReadOnlyList<Uri> Addresses
        => [.. Output.Split('\n').Where(l => l.Contains(Mark, StringComparison.Ordinal)).Select(l => new Uri(l[(l.IndexOf(Mark, StringComparison.Ordinal) + Mark.Length)..].Trim()))];

    /// <summary>Starts the program and waits until it listens.</summary>
    public static Task<ServerProcess> StartAsync(string dataFolder, string environment = "Development", params string[] more)
        => StartAsync(dataFolder, new Dictionary<string, string> { ["ASPNETCORE_ENVIRONMENT"] = environment, ["HOMESTRETCH_PDF_SECONDS"] = "120" }, more);

    /// <summary>Starts the program with variables of its environment, and waits until it listens.</summary>
    public static async Task<ServerProcess> StartAsync(string dataFolder, IReadOnlyDictionary<string, string> variables, params string[] more)
    {
        ProcessStartInfo start = new("dotnet")
        {
            ArgumentList = { BuildValue("WebProgram"), "--urls", "http://127.0.0.1:0", "--data", dataFolder },
            WorkingDirectory = Path.GetTempPath(),
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach ((string name, string value) in variables)
        {
            start.Environment[name] = value;
        }

        foreach (string argument in more)
        {
            start.ArgumentList.Add(argument);
        }

        Process process = new() { StartInfo = start };
        ServerProcess server = new(process);
        TaskCompletionSource<Uri> listening = new(TaskCreationOptions.RunContinuationsAsynchronously);
        process.OutputDataReceived += (_, line) =>
        {
            server.Note(line.Data);
            if (line.Data is { } text && text.IndexOf(Mark, StringComparison.Ordinal) is >= 0 and int at)
            {
                listening.TrySetResult(new Uri(text[(at + Mark.Length)..].Trim()));
            }
        };
        process.ErrorDataReceived += (_, line) => server.Note(line.Data);
        process.EnableRaisingEvents = true;
        process.Exited += (_, _) => listening.TrySetException(new InvalidOperationException(
            string.Create(CultureInfo.InvariantCulture, $"The program ended with {process.ExitCode} before it listened.\n{server.Output}")));
        process.Start();
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        server.Address = await listening.Task.WaitAsync(LongestStart);
        return server;
    }

    /// <summary>Ends the program at once, as a power cut would.</summary>
    public async ValueTask DisposeAsync()
    {
        if (!_process.HasExited)
        {
            _process.Kill();
            await _process.WaitForExitAsync();
        }

        _process.Dispose();
    }

    private void Note(string? line)
    {
        lock (_output)
        {
            _output.AppendLine(line);
        }
    }
}
