using Homestretch.Files.Printing;

namespace Homestretch.Files.Tests.Printing;

/// <summary>What happens where Chromium is missing, fails, hangs or is asked for too much at once; small shell scripts stand in for it.</summary>
public sealed class PdfPrinterTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("homestretch-printer-");

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private string Places => Path.Combine(_folder.FullName, "places");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Without_a_chromium_it_says_what_to_install()
    {
        using PdfPrinter printer = new(() => null, TimeSpan.FromSeconds(20));

        Assert.False(printer.IsAvailable);
        PrintingException refusal = await Assert.ThrowsAsync<PrintingException>(() => printer.PrintAsync("<p>", cancellation: Cancellation));
        Assert.Contains("apt install chromium", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("open it in any browser and print it", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void It_is_found_by_its_variable_then_on_the_path()
    {
        string named = Script("mine", "exit 0");
        string onPath = Script("google-chrome", "exit 0");
        Func<string, string?> With(string? variable, string path) => name => name == Chromium.Variable ? variable : name == "PATH" ? path : null;

        Assert.Equal(named, Chromium.Find(With(named, _folder.FullName)));
        Assert.Equal(onPath, Chromium.Find(With(null, "/nowhere" + Path.PathSeparator + _folder.FullName)));
        Assert.Equal(Script("chromium", "exit 0"), Chromium.Find(With("", _folder.FullName)));
        Assert.Null(Chromium.Find(With(null, "/nowhere")));
        PrintingException refusal = Assert.Throws<PrintingException>(() => Chromium.Find(With("/no/such/chromium", _folder.FullName)));
        Assert.Contains("HOMESTRETCH_CHROMIUM names '/no/such/chromium'", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_that_hangs_is_ended_with_its_children_and_leaves_nothing()
    {
        string script = Script("hangs", $"echo \"$PWD\" > '{Places}'; sleep 600 & echo $! > '{_folder.FullName}/child'; wait");
        using PdfPrinter printer = new(() => script, TimeSpan.FromSeconds(2));

        PrintingException refusal = await Assert.ThrowsAsync<PrintingException>(() => printer.PrintAsync("<p>", cancellation: Cancellation));

        Assert.Contains("took more than 2 seconds", refusal.Message, StringComparison.Ordinal);
        AssertGone();
    }

    [Fact]
    public async Task Stopping_ends_it_too()
    {
        string script = Script("hangs", $"echo \"$PWD\" > '{Places}'; sleep 600 & echo $! > '{_folder.FullName}/child'; touch '{_folder.FullName}/started'; wait");
        using PdfPrinter printer = new(() => script, TimeSpan.FromMinutes(5));
        using CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(Cancellation);
        using FileSystemWatcher watcher = new(_folder.FullName, "started") { EnableRaisingEvents = true };
        watcher.Created += (_, _) => stop.Cancel();

        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => printer.PrintAsync("<p>", cancellation: stop.Token));

        AssertGone();
    }

    [Fact]
    public async Task One_that_fails_is_quoted()
    {
        string script = Script("fails", $"echo \"$PWD\" > '{Places}'; echo 'first' >&2; echo 'No usable sandbox!' >&2; exit 3");
        using PdfPrinter printer = new(() => script, TimeSpan.FromSeconds(20));

        PrintingException refusal = await Assert.ThrowsAsync<PrintingException>(() => printer.PrintAsync("<p>", cancellation: Cancellation));

        Assert.Contains("ended with status 3 and made no PDF. It said: No usable sandbox!", refusal.Message, StringComparison.Ordinal);
        AssertGone();
    }

    [Fact]
    public async Task One_that_cannot_be_started_is_named()
    {
        string file = Path.Combine(_folder.FullName, "no-program");
        await File.WriteAllTextAsync(file, "", Cancellation);
        using PdfPrinter printer = new(() => file, TimeSpan.FromSeconds(20));

        PrintingException refusal = await Assert.ThrowsAsync<PrintingException>(() => printer.PrintAsync("<p>", cancellation: Cancellation));

        Assert.Contains(file + " could not be used", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Two_print_at_once_and_the_others_wait()
    {
        string running = Path.Combine(_folder.FullName, "running");
        Directory.CreateDirectory(running);
        string script = Script(
            "prints",
            $"mkdir '{running}'/$$; ls '{running}' | wc -l >> '{_folder.FullName}/counts'; sleep 0.2; rmdir '{running}'/$$; for a in \"$@\"; do case \"$a\" in --print-to-pdf=*) cp page.html \"${{a#--print-to-pdf=}}\";; esac; done");
        using PdfPrinter printer = new(() => script, TimeSpan.FromMinutes(1));

        byte[][] printed = await Task.WhenAll(Enumerable.Range(0, 6).Select(i => printer.PrintAsync($"<p>{i}", cancellation: Cancellation)));

        Assert.Equal(["<p>0", "<p>1", "<p>2", "<p>3", "<p>4", "<p>5"], printed.Select(p => System.Text.Encoding.UTF8.GetString(p)));
        int[] counts = [.. (await File.ReadAllLinesAsync(Path.Combine(_folder.FullName, "counts"), Cancellation)).Select(l => int.Parse(l, System.Globalization.CultureInfo.InvariantCulture))];
        Assert.Equal(6, counts.Length);
        Assert.Equal(2, counts.Max());
    }

    [Theory]
    [InlineData(null, 20)]
    [InlineData("", 20)]
    [InlineData("1", 1)]
    [InlineData("600", 600)]
    public void The_limit_can_be_set(string? seconds, int limit) => Assert.Equal(TimeSpan.FromSeconds(limit), PdfPrinter.Limit(seconds));

    [Theory]
    [InlineData("0")]
    [InlineData("601")]
    [InlineData("-5")]
    [InlineData("soon")]
    public void What_is_no_limit_is_refused(string seconds)
        => Assert.Contains($"from 1 to 600; '{seconds}' is not", Assert.Throws<PrintingException>(() => PdfPrinter.Limit(seconds)).Message, StringComparison.Ordinal);

    private void AssertGone()
    {
        Assert.False(Directory.Exists(File.ReadAllText(Places).Trim()));
        string child = Path.Combine(_folder.FullName, "child");
        if (File.Exists(child))
        {
            // One that was ended is gone, or waits for the system to take note of it.
            string state = $"/proc/{File.ReadAllText(child).Trim()}/stat";
            Assert.True(!File.Exists(state) || File.ReadAllText(state).Split(')')[^1].TrimStart()[0] == 'Z', "The child still runs.");
        }
    }

    private string Script(string name, string lines)
    {
        string path = Path.Combine(_folder.FullName, name);
        File.WriteAllText(path, "#!/bin/sh\n" + lines + "\n");
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }

        return path;
    }
}
