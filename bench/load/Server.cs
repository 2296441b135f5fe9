using System.Diagnostics;
using System.Globalization;

namespace Homestretch.Load;

/// <summary>The published program on a free loopback port.</summary>
internal sealed class Server : IAsyncDisposable
{
    private const string Mark = "Now listening on: ";

    private readonly Process _process;

    private Server(Process process) => _process = process;

    /// <summary>Where it listens.</summary>
    public Uri Address { get; private set; } = null!;

    /// <summary>Memory of the process that is in use and not swapped out, in MB.</summary>
    public double WorkingSet
    {
        get
        {
            string line = File.ReadLines(string.Create(CultureInfo.InvariantCulture, $"/proc/{_process.Id}/status")).First(l => l.StartsWith("VmRSS:", StringComparison.Ordinal));
            return double.Parse(line.Split(' ', StringSplitOptions.RemoveEmptyEntries)[^2], CultureInfo.InvariantCulture) / 1024;
        }
    }

    /// <summary>Processor time used so far, on all cores.</summary>
    public TimeSpan ProcessorTime
    {
        get
        {
            _process.Refresh();
            return _process.TotalProcessorTime;
        }
    }

    /// <summary>Starts it and waits until it listens.</summary>
    public static async Task<Server> StartAsync(string program, string data)
    {
        ProcessStartInfo start = new("dotnet")
        {
            ArgumentList = { program, "--urls", "http://127.0.0.1:0", "--data", data },
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            Environment = { ["ASPNETCORE_ENVIRONMENT"] = "Production" },
        };
        Process process = new() { StartInfo = start, EnableRaisingEvents = true };
        Server server = new(process);
        TaskCompletionSource<Uri> listening = new(TaskCreationOptions.RunContinuationsAsynchronously);
        void Note(object sender, DataReceivedEventArgs line)
        {
            if (line.Data is { } text && text.IndexOf(Mark, StringComparison.Ordinal) is >= 0 and int at)
            {
                listening.TrySetResult(new Uri(text[(at + Mark.Length)..].Trim()));
            }
            else if (line.Data?.StartsWith("fail:", StringComparison.Ordinal) == true)
            {
                Console.Error.WriteLine(line.Data);
            }
        }

        process.OutputDataReceived += Note;
        process.ErrorDataReceived += Note;
        process.Exited += (_, _) => listening.TrySetException(new InvalidOperationException("The server ended before it listened."));
        process.Start();
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        server.Address = await listening.Task.WaitAsync(TimeSpan.FromMinutes(2));
        return server;
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (!_process.HasExited)
        {
            _process.Kill();
            await _process.WaitForExitAsync();
        }

        _process.Dispose();
    }
}
