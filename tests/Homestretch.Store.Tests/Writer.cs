using NodaTime;

namespace Homestretch.Store.Tests;

/// <summary>A program that writes to a store without end and says after each step what has been acknowledged; it is there to be killed.</summary>
internal static class Writer
{
    /// <summary>The first argument that makes the test program run as the writer.</summary>
    public const string Switch = "--write-until-killed";

    /// <summary>Rows of every quiz, and items of every import: all of them or none.</summary>
    public const int RowsEach = 7;

    /// <summary>Opens <c>file PATH</c> or <c>server CONNECTION</c> and writes, naming what it makes after <paramref name="run"/>.</summary>
    public static async Task<int> RunAsync(string kind, string place, string run)
    {
        CaseStore store = kind == "file" ? await CaseStore.OpenFileAsync(place) : await CaseStore.OpenServerAsync(place);
        Console.Out.WriteLine("open");
        for (int i = 0; ; i++)
        {
            string key = $"case-{run}-{i}";
            await store.AddAsync(Samples.Case(key, "C"));
            Console.Out.WriteLine($"case {key}");
            await store.KeepAsync(key, Enumerable.Range(0, RowsEach).Select(n => Samples.Item("C", "quiz", n)));
            Console.Out.WriteLine($"quiz {key}");
            await store.KeepAsync(key, [new PlanVersion { At = Samples.Noon, Origin = Origin.Program, Why = "Again.", Document = "{}" }]);
            Console.Out.WriteLine($"plan {key}");
            long[] diagnostic = [.. (await store.FindAsync(key))!.Evidence.Where(r => r.Attempt == "diagnostic").Select(r => r.Id)];
            await store.TakeOutAsync<EvidenceRow>(key, diagnostic, Samples.Noon + Duration.FromDays(1));
            Console.Out.WriteLine($"undo {key}");

            // An import of several cases is one step too.
            using MemoryStream zip = new();
            Packed.Write(zip, Enumerable.Range(0, RowsEach).Select(n => Samples.Case($"import-{run}-{i}-{n}", "C")));
            zip.Position = 0;
            Files.ReadResult<StoreCounts> read = await store.ImportAsync(zip, "import.zip");
            if (!read.IsOk)
            {
                Console.Error.WriteLine(string.Join('\n', read.Problems));
                return 1;
            }

            Console.Out.WriteLine($"import import-{run}-{i}");
        }
    }
}
