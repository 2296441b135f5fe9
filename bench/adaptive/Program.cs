using System.Diagnostics;
using System.Globalization;

using Homestretch.Adaptive;

// How much a diagnostic that chooses its items gains over a fixed one, on simulated people. Usage: bench/adaptive/run [people] [seed]
int people = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 1000;
int seed = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 1;
const int BankItems = 240;
const int Length = 40;
CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
int[] shown = [0, 5, 10, 15, 20, 30, 40];
int[] matched = [10, 15, 20, 30, 40];
Stopwatch watch = Stopwatch.StartNew();
Console.WriteLine($"{people} people, bank of {BankItems} items, seed {seed}; after {string.Join(' ', shown)} items:");
List<StudyResult> results = [];
foreach (Design design in Enum.GetValues<Design>())
{
    StudyResult result = AdaptiveStudy.Run(BankItems, people, Length, [design], seed)[0];
    results.Add(result);
    Console.WriteLine($"{design}, {watch.Elapsed.TotalSeconds:F0} s");
    Console.WriteLine($"  root mean squared error of the pass chance, in points: {string.Join(' ', shown.Select(n => (100 * Math.Sqrt(result.SquaredError[n])).ToString("F1", CultureInfo.InvariantCulture)))}");
    Console.WriteLine($"  mean squared error (standard error): {string.Join(' ', shown.Select(n => $"{result.SquaredError[n]:F4} ({result.StandardError[n]:F4})"))}");
    Console.WriteLine($"  items that are as good as a random form of {string.Join(", ", matched)}: {string.Join(' ', matched.Select(n => result.ItemsToMatch(results[0], n) is { } items ? items.ToString("F1", CultureInfo.InvariantCulture) : $"over {Length}"))}");
    Console.WriteLine($"  most shown item: to {result.MostShown:P0} of the people");
    if (design is not (Design.RandomForm or Design.BestForm))
    {
        Console.WriteLine($"  stops after {result.ItemsAtStop:F1} items, root mean squared error {100 * Math.Sqrt(result.SquaredErrorAtStop):F1} points, right side of an even chance {result.RightSideAtStop:P0}");
    }
}
