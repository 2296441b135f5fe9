using System.Diagnostics;
using System.Globalization;

namespace Homestretch.Store.Tests;

/// <summary>Kills a writing process again and again (SIGKILL, no warning), and looks at what it left.</summary>
internal static class Kills
{
    // Enough to see a plain mistake; eng/kill-writers does a hundred.
    private const int Few = 6;

    public static async Task RunAsync(string[] place, Func<Task<CaseStore>> open, CancellationToken cancellation)
    {
        await open();
        int count = int.TryParse(Environment.GetEnvironmentVariable("HOMESTRETCH_TEST_KILLS"), CultureInfo.InvariantCulture, out int asked) ? asked : Few;
        List<string> acknowledged = [];
        int killedAtWork = 0;
        for (int run = 0; run < count; run++)
        {
            List<string> said = await KillOneAsync(place, run, cancellation);
            acknowledged.AddRange(said);
            killedAtWork += said.Count > 0 ? 1 : 0;
            await CheckAsync(await open(), acknowledged, cancellation);
        }

        TestContext.Current.TestOutputHelper?.WriteLine($"{count} kills, {killedAtWork} of them after something had been acknowledged, {acknowledged.Count} steps acknowledged.");
        Assert.True(killedAtWork > count / 2, $"Only {killedAtWork} of {count} writers had begun when they were killed.");
    }

    private static async Task<List<string>> KillOneAsync(string[] place, int run, CancellationToken cancellation)
    {
        ProcessStartInfo start = new("dotnet")
        {
            ArgumentList = { typeof(Kills).Assembly.Location, Writer.Switch, place[0], place[1], run.ToString(CultureInfo.InvariantCulture) },
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using Process writer = Process.Start(start)!;
        Task<string> errors = writer.StandardError.ReadToEndAsync(cancellation);
        List<string> said = [];

        // Some are killed while they open the store, most at some step of the first rounds, at every place within a step.
        int after = run % 10 == 9 ? 0 : 1 + (run % 7 * 3);
        int delay = run * 37 % 23;
        int lines = 0;
        while (lines < after && await writer.StandardOutput.ReadLineAsync(cancellation) is { } line)
        {
            lines++;
            said.Add(line);
        }

        await Task.Delay(delay, cancellation);
        bool running = !writer.HasExited;
        writer.Kill();
        while (await writer.StandardOutput.ReadLineAsync(cancellation) is { } line)
        {
            said.Add(line);
        }

        await writer.WaitForExitAsync(cancellation);
        Assert.True(running, $"The writer ended by itself: {await errors}");
        return [.. said.Where(s => s != "open")];
    }

    private static async Task CheckAsync(CaseStore store, List<string> acknowledged, CancellationToken cancellation)
    {
        Dictionary<string, StoredCase> all = [];
        foreach (CaseSummary summary in await store.ListAsync(cancellation))
        {
            all[summary.Key] = (await store.FindWholeAsync(summary.Key, cancellation))!;
        }

        foreach (string step in acknowledged)
        {
            string[] words = step.Split(' ');
            if (words[0] == "import")
            {
                Assert.Equal(Writer.RowsEach, all.Keys.Count(k => k.StartsWith(words[1] + "-", StringComparison.Ordinal)));
                continue;
            }

            Assert.True(all.TryGetValue(words[1], out StoredCase? kept), $"'{step}' was acknowledged and is lost.");
            Assert.True(
                words[0] switch
                {
                    "quiz" => kept.Evidence.Count(r => r.Attempt == "quiz") == Writer.RowsEach,
                    "plan" => kept.Plans.Count == 2,
                    "undo" => kept.Evidence.Count(r => r.RemovedAt is not null) == 3,
                    _ => true,
                },
                $"'{step}' was acknowledged and is lost.");
        }

        // Nothing half-written: whatever a step left, it left whole, acknowledged or not.
        Assert.All(all.Values, kept =>
        {
            Assert.Equal(3, kept.Files.Count);
            Assert.Single(kept.Exam!.Versions);
            Assert.Equal(3, kept.Evidence.Count(r => r.Attempt == "diagnostic"));
            Assert.Contains(kept.Evidence.Count(r => r.Attempt == "quiz"), new[] { 0, Writer.RowsEach });
            Assert.Contains(kept.Evidence.Count(r => r.RemovedAt is not null), new[] { 0, 3 });
            Assert.Single(kept.Decisions);
            Assert.Single(kept.Links);
        });
        Assert.All(
            all.Keys.Where(k => k.StartsWith("import-", StringComparison.Ordinal)).GroupBy(k => k[..k.LastIndexOf('-')]),
            import => Assert.Equal(Writer.RowsEach, import.Count()));
    }
}
