using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;

using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

// Usage: make FILE ITEMS PERSONS  writes invented data; fit FILE  reads them and prints one line per model.
CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
if (args is ["make", string target, string itemsText, string personsText])
{
    Make(target, int.Parse(itemsText, CultureInfo.InvariantCulture), int.Parse(personsText, CultureInfo.InvariantCulture));
    return 0;
}

if (args is ["fit", string source])
{
    Fit(source);
    return 0;
}

Console.Error.WriteLine("make FILE ITEMS PERSONS, or fit FILE");
return 2;

static void Make(string target, int items, int persons)
{
    Random random = new(20260214);
    double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
    (double Slope, double Difficulty)[] truth = [.. Enumerable.Range(0, items).Select(_ => (Math.Exp(0.3 * Normal()), Normal()))];
    using StreamWriter file = new(target);
    file.Write(string.Join(',', Enumerable.Range(1, items).Select(j => $"i{j}")) + "\n");
    for (int p = 0; p < persons; p++)
    {
        double ability = Normal();
        file.Write(string.Join(',', truth.Select(t => random.NextDouble() < 1 / (1 + Math.Exp(-t.Slope * (ability - t.Difficulty))) ? '1' : '0')) + "\n");
    }
}

static void Fit(string source)
{
    using StreamReader file = new(source);
    ImmutableArray<string> items = [.. file.ReadLine()!.Split(',')];
    List<Answer> answers = [];
    while (file.ReadLine() is { } line)
    {
        for (int j = 0; j < items.Length; j++)
        {
            answers.Add(line[2 * j] == '1' ? Answer.Right : Answer.Wrong);
        }
    }

    // Each time is of one cold call from plain answers to estimates with standard errors, just-in-time compilation included.
    Answer[] rows = [.. answers];
    Time("2PL marginal", rows, items, data => MarginalEstimation.Fit(data, ItemModel.TwoParameter).LogLikelihood);
    Time("2PL marginal again", rows, items, data => MarginalEstimation.Fit(data, ItemModel.TwoParameter).LogLikelihood);
    Time("Rasch marginal", rows, items, data => MarginalEstimation.Fit(data, ItemModel.Rasch).LogLikelihood);
    Time("Rasch conditional", rows, items, data => ConditionalRasch.Fit(data).LogLikelihood);
}

static void Time(string what, Answer[] rows, ImmutableArray<string> items, Func<ResponseMatrix, double> fit)
{
    TimeSpan before = Process.GetCurrentProcess().TotalProcessorTime;
    Stopwatch watch = Stopwatch.StartNew();
    double logLikelihood = fit(ResponseMatrix.Create(items, rows));
    double wall = watch.Elapsed.TotalSeconds;
    double processor = (Process.GetCurrentProcess().TotalProcessorTime - before).TotalSeconds;
    Console.WriteLine($"Homestretch,{what},{wall:F2},{processor:F2},{logLikelihood:F4}");
}
