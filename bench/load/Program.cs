using System.Diagnostics;
using System.Globalization;

using Homestretch.Load;
using Homestretch.Store;

using NodaTime;

const int WarmUps = 60;
TimeSpan between = TimeSpan.FromSeconds(15);
if (LoadOptions.Read(args, out string problem) is not { } options)
{
    await Console.Error.WriteLineAsync(problem);
    return 2;
}

string folder = options.Folder ?? Path.Combine(Path.GetTempPath(), "homestretch-load-" + Guid.NewGuid().ToString("N"));
try
{
    Stopwatch filling = Stopwatch.StartNew();
    CaseStore store = await DataFolder.Of(folder).OpenStoreAsync(null);
    await Filling.FillAsync(
        store,
        Path.Combine(Path.GetDirectoryName(options.Server)!, "examples", "museum-registrar", "exam.yaml"),
        options.Candidates,
        SystemClock.Instance.GetCurrentInstant(),
        filled => Console.Error.WriteLine($"{filled} candidates filled in, {filling.Elapsed.TotalSeconds:0} s"),
        CancellationToken.None);
    await using Server server = await Server.StartAsync(options.Server, folder);
    using Visitors visitors = new(server.Address, options.Candidates);

    // Code is compiled on first use, and better after some thirty calls; what is measured is a program that has been running for a while.
    Random random = new(1);
    foreach ((string page, _) in Visitors.Mix)
    {
        for (int i = 0; i < WarmUps; i++)
        {
            await visitors.VisitAsync(page, random, () => { });
        }
    }

    Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{options.Candidates} candidates, {options.Rate:0.#} visits a second for {options.Length.TotalSeconds:0} s, {Environment.ProcessorCount} cores, {DateTime.UtcNow:yyyy-MM-dd HH:mm} UTC"));
    Latencies latencies = new();
    List<(double Seconds, double Megabytes)> memory = [];
    TimeSpan before = server.ProcessorTime;
    List<Task> visits = [];
    Stopwatch clock = Stopwatch.StartNew();
    TimeSpan nextLook = TimeSpan.Zero;
    for (int i = 0; ; i++)
    {
        TimeSpan due = TimeSpan.FromSeconds(i / options.Rate);
        if (due > options.Length)
        {
            break;
        }

        if (options.Soak && clock.Elapsed >= nextLook)
        {
            memory.Add((clock.Elapsed.TotalSeconds, server.WorkingSet));
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{clock.Elapsed.TotalSeconds,6:0} s {memory[^1].Megabytes,8:0.0} MB"));
            nextLook += between;
        }

        // Visits come when they are due, whether or not the earlier ones have been answered.
        if (due - clock.Elapsed is { } wait && wait > TimeSpan.Zero)
        {
            await Task.Delay(wait);
        }

        int seed = i;
        visits.Add(Task.Run(() => VisitAsync(due, seed)));
        if (visits.Count > 1000)
        {
            visits.RemoveAll(v => v.IsCompleted);
        }
    }

    await Task.WhenAll(visits);
    int errors = latencies.Print(Console.Out);
    Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"processor of the server: {(server.ProcessorTime - before).TotalSeconds / clock.Elapsed.TotalSeconds:0.00} cores; working set {server.WorkingSet:0} MB"));
    if (memory.Count > 3)
    {
        // The beginning is caches filling up.
        (double Seconds, double Megabytes)[] later = [.. memory.Skip(memory.Count / 2)];
        double meanX = later.Average(m => m.Seconds);
        double meanY = later.Average(m => m.Megabytes);
        double slope = later.Sum(m => (m.Seconds - meanX) * (m.Megabytes - meanY)) / later.Sum(m => (m.Seconds - meanX) * (m.Seconds - meanX));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"memory in the second half: mean {meanY:0} MB, slope {slope * 3600:+0.0;-0.0;0} MB an hour"));
    }

    return errors == 0 ? 0 : 1;

    async Task VisitAsync(TimeSpan due, int seed)
    {
        Random own = new(seed);
        string page = Visitors.Draw(own);
        TimeSpan from = due;
        bool fine;
        try
        {
            fine = await visitors.VisitAsync(page, own, () => from = clock.Elapsed);
        }
        catch (Exception e) when (e is HttpRequestException or OperationCanceledException)
        {
            fine = false;
        }

        latencies.Add(page, (clock.Elapsed - from).TotalMilliseconds, fine);
    }
}
finally
{
    if (options.Folder is null && Directory.Exists(folder))
    {
        Directory.Delete(folder, recursive: true);
    }
}
