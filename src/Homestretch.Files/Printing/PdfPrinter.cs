using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using System.Text;

namespace Homestretch.Files.Printing;

/// <summary>Prints HTML documents of ours to tagged PDFs with a headless Chromium, a process of its own each time. Safe to use from several threads: two print at once, the others wait.</summary>
/// <param name="find">Gives the path of the program, or null where there is none; asked each time, so that one installed meanwhile is found.</param>
/// <param name="limit">Gives how long one printing may take, waiting not counted.</param>
public sealed class PdfPrinter(Func<string?> find, Func<TimeSpan> limit) : IDisposable
{
    /// <summary>Environment variable that holds how long one printing may take, in seconds.</summary>
    public const string SecondsVariable = "HOMESTRETCH_PDF_SECONDS";

    private const int UsualSeconds = 20;
    private const int MostSeconds = 600;
    private const int MostAtOnce = 2;
    private const int MostErrorLines = 40;
    private const int DeletionAttempts = 20;

    private static readonly UTF8Encoding _utf8 = new(encoderShouldEmitUTF8Identifier: false);

    private readonly SemaphoreSlim _slots = new(MostAtOnce);

    /// <summary>A printer that looks for Chromium on this computer and gives it 20 seconds, or as many as <see cref="SecondsVariable"/> says.</summary>
    public PdfPrinter()
        : this(() => Chromium.Find(), () => Limit(Environment.GetEnvironmentVariable(SecondsVariable)))
    {
    }

    /// <summary>A printer with a fixed limit.</summary>
    public PdfPrinter(Func<string?> find, TimeSpan limit)
        : this(find, () => limit)
    {
    }

    /// <summary>Whether there is a Chromium to print with.</summary>
    public bool IsAvailable
    {
        get
        {
            try
            {
                return find() is not null;
            }
            catch (PrintingException)
            {
                return false;
            }
        }
    }

    /// <summary>The document as a PDF, on the paper that its style sheet names. Nothing of it stays on the disk.</summary>
    /// <param name="html">A self-contained document: nothing is loaded, from the network or elsewhere.</param>
    /// <param name="extra">Time beyond the usual limit, for a large document.</param>
    /// <param name="cancellation">Stops the printing and ends its processes.</param>
    /// <exception cref="PrintingException">There is no Chromium, it failed, or it took too long.</exception>
    public async Task<byte[]> PrintAsync(string html, TimeSpan extra = default, CancellationToken cancellation = default)
    {
        string program = find() ?? throw new PrintingException(Chromium.Advice);
        TimeSpan longest = limit() + extra;
        await _slots.WaitAsync(cancellation);
        DirectoryInfo? folder = null;
        try
        {
            // Readable by its owner only.
            folder = Directory.CreateTempSubdirectory("homestretch-pdf-");
            return await PrintAsync(program, html, folder.FullName, longest, cancellation);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or Win32Exception)
        {
            throw new PrintingException($"{program} could not be used to make the PDF: {e.Message}");
        }
        finally
        {
            await RemoveAsync(folder);
            _slots.Release();
        }
    }

    /// <summary>How long one printing may take.</summary>
    /// <param name="seconds">What a person wrote; null or empty for the usual limit.</param>
    /// <exception cref="PrintingException">It is no number of seconds from 1 to 600.</exception>
    public static TimeSpan Limit(string? seconds)
        => string.IsNullOrWhiteSpace(seconds) ? TimeSpan.FromSeconds(UsualSeconds)
            : int.TryParse(seconds, NumberStyles.None, CultureInfo.InvariantCulture, out int number) && number is >= 1 and <= MostSeconds ? TimeSpan.FromSeconds(number)
            : throw new PrintingException($"{SecondsVariable} is a whole number of seconds from 1 to {MostSeconds}; '{seconds}' is not.");

    /// <inheritdoc/>
    public void Dispose() => _slots.Dispose();

    private static async Task<byte[]> PrintAsync(string program, string html, string folder, TimeSpan limit, CancellationToken cancellation)
    {
        string page = Path.Combine(folder, "page.html");
        string pdf = Path.Combine(folder, "page.pdf");
        await File.WriteAllTextAsync(page, html, _utf8, cancellation);
        ProcessStartInfo start = new(program, Arguments(page, pdf, Path.Combine(folder, "profile")))
        {
            WorkingDirectory = folder,
            UseShellExecute = false,
            CreateNoWindow = true,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };

        // Whatever it keeps beside its profile goes into the folder too, and away with it.
        start.Environment["HOME"] = folder;
        start.Environment["XDG_CONFIG_HOME"] = folder;
        start.Environment["XDG_CACHE_HOME"] = folder;
        using Process process = new() { StartInfo = start };
        Queue<string> said = [];
        process.OutputDataReceived += (_, line) => Note(said, line.Data);
        process.ErrorDataReceived += (_, line) => Note(said, line.Data);
        using CancellationTokenSource ending = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        ending.CancelAfter(limit);
        process.Start();
        try
        {
            process.StandardInput.Close();
            process.BeginOutputReadLine();
            process.BeginErrorReadLine();
            await process.WaitForExitAsync(ending.Token);
        }
        catch (OperationCanceledException) when (!cancellation.IsCancellationRequested)
        {
            throw new PrintingException(string.Create(
                CultureInfo.InvariantCulture,
                $"Making the PDF took more than {limit.TotalSeconds:0} seconds and was stopped. Try again in a moment, with fewer people at once, or with more seconds in {SecondsVariable}; the handout also prints from any browser."));
        }
        finally
        {
            await EndAsync(process);
        }

        return process.ExitCode == 0 && File.Exists(pdf)
            ? await File.ReadAllBytesAsync(pdf, cancellation)
            : throw new PrintingException(string.Create(CultureInfo.InvariantCulture, $"{program} ended with status {process.ExitCode} and made no PDF. It said: {Last(said)}"));
    }

    private static IEnumerable<string> Arguments(string page, string pdf, string profile)
    {
        string[] arguments =
        [
            "--headless",
            "--disable-gpu",
            "--no-first-run",
            "--no-default-browser-check",
            "--disable-extensions",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            "--disable-breakpad",
            "--disable-dev-shm-usage",
            "--password-store=basic",
            "--use-mock-keychain",

            // The document loads nothing; neither shall the browser around it.
            "--host-resolver-rules=MAP * ~NOTFOUND",
            "--proxy-server=127.0.0.1:9",
            $"--user-data-dir={profile}",
            "--no-pdf-header-footer",
            "--generate-pdf-document-outline",
            $"--print-to-pdf={pdf}",
            new Uri(page).AbsoluteUri,
        ];

        // Chromium refuses to run as root inside its own sandbox. The page is ours and runs no script, so root in a container can do without.
        return OperatingSystem.IsLinux() && Environment.IsPrivilegedProcess ? arguments.Prepend("--no-sandbox") : arguments;
    }

    private static async Task EndAsync(Process process)
    {
        if (!process.HasExited)
        {
            process.Kill(entireProcessTree: true);
            await process.WaitForExitAsync(CancellationToken.None);
        }
    }

    private static async Task RemoveAsync(DirectoryInfo? folder)
    {
        if (folder is null)
        {
            return;
        }

        foreach (FileInfo file in folder.EnumerateFiles())
        {
            file.Delete();
        }

        // What is left is the browser's profile, in which its last processes may still be writing when the first has ended.
        for (int attempt = 1; folder.Exists && attempt <= DeletionAttempts; attempt++)
        {
            try
            {
                folder.Delete(recursive: true);
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                await Task.Delay(TimeSpan.FromMilliseconds(100));
            }

            folder.Refresh();
        }
    }

    private static void Note(Queue<string> said, string? line)
    {
        if (string.IsNullOrWhiteSpace(line))
        {
            return;
        }

        lock (said)
        {
            said.Enqueue(line.Trim());
            if (said.Count > MostErrorLines)
            {
                said.Dequeue();
            }
        }
    }

    private static string Last(Queue<string> said)
    {
        const int MostCharacters = 300;
        lock (said)
        {
            string last = said.LastOrDefault() ?? "nothing.";
            return last.Length <= MostCharacters ? last : last[..MostCharacters] + "…";
        }
    }
}
