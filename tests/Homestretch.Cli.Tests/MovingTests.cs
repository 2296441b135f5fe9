using System.Text.Json;

using Homestretch.Store;

using Json.Schema;

using NodaTime;

namespace Homestretch.Cli.Tests;

/// <summary>Export and import from a shell.</summary>
public sealed class MovingTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("homestretch-moving-").FullName;

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task WhatIsExportedIsImportedElsewhereWithoutLoss()
    {
        await FillAsync("here");
        string first = Path.Combine(_folder, "first.zip");
        string second = Path.Combine(_folder, "second.zip");

        Ran exported = await Ran.Program("export", first, "--data", Path.Combine(_folder, "here"));
        Ran imported = await Ran.Program("import", first, "--data", Path.Combine(_folder, "there"), "--json");
        Ran again = await Ran.Program("export", second, "--data", Path.Combine(_folder, "there"), "--json");

        Assert.Equal((0, ""), (exported.Status, exported.Errors));
        Assert.Equal($"Written to {first}: 1 exam, 1 case with 60 rows of evidence, 0 study sessions, 0 plans, 0 decisions and 0 words.", exported.Output.ReplaceLineEndings(" ").Trim());
        Assert.Equal((0, ""), (imported.Status, imported.Errors));
        using JsonDocument document = JsonDocument.Parse(imported.Output);
        Assert.True(JsonSchema.FromText(await File.ReadAllTextAsync(Ran.InCheckout("schemas", "moved.schema.json"), Cancellation)).Evaluate(document.RootElement).IsValid);
        Assert.Equal(60, document.RootElement.GetProperty("evidenceRows").GetInt32());
        Assert.Equal(0, again.Status);
        Assert.Equal(await File.ReadAllBytesAsync(first, Cancellation), await File.ReadAllBytesAsync(second, Cancellation));
        Assert.Equal(["first.zip", "second.zip"], Directory.GetFiles(_folder).Select(Path.GetFileName).Order());
    }

    [Fact]
    public async Task TheEvidenceInAnExportIsAFileThatTheOtherCommandsRead()
    {
        await FillAsync("here");
        string zip = Path.Combine(_folder, "all.zip");
        await Ran.Program("export", zip, "--data", Path.Combine(_folder, "here"));
        System.IO.Compression.ZipFile.ExtractToDirectory(zip, Path.Combine(_folder, "out"));

        Ran fromExport = await Ran.Program("standing", Path.Combine(_folder, "out", "exams", "exam-1", "0001.yaml"), Path.Combine(_folder, "out", "cases", "mara-venn-1", "evidence.csv"), "--as-of", "2026-11-25", "--json");
        Ran fromDemo = await Ran.Program("standing", Ran.Demo("exam.yaml"), Ran.Demo("mara-venn.csv"), "--as-of", "2026-11-25", "--json");

        Assert.Equal("", fromExport.Errors);
        Assert.Equal(fromDemo.Output, fromExport.Output);
    }

    [Fact]
    public async Task AStoreThatIsNotThereIsBadInputAndIsNotMade()
    {
        Ran ran = await Ran.Program("export", Path.Combine(_folder, "x.zip"), "--data", Path.Combine(_folder, "nowhere"));

        ran.AssertBadInput();
        Assert.Contains("There is no store here", ran.Errors, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(_folder));
    }

    [Fact]
    public async Task WhatIsNoExportIsBadInput()
    {
        string text = Path.Combine(_folder, "text.zip");
        await File.WriteAllTextAsync(text, "no zip", Cancellation);

        Ran noZip = await Ran.Program("import", text, "--data", Path.Combine(_folder, "there"));
        Ran missing = await Ran.Program("import", Path.Combine(_folder, "missing.zip"), "--data", Path.Combine(_folder, "there"));

        noZip.AssertBadInput();
        Assert.Contains("no zip file", noZip.Errors, StringComparison.Ordinal);
        missing.AssertBadInput();
        Assert.Contains("no such file", missing.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task WhatIsThereAlreadyIsBadInputAndStaysAsItIs()
    {
        await FillAsync("here");
        string zip = Path.Combine(_folder, "all.zip");
        await Ran.Program("export", zip, "--data", Path.Combine(_folder, "here"));

        Ran ran = await Ran.Program("import", zip, "--data", Path.Combine(_folder, "here"));

        ran.AssertBadInput();
        Assert.Contains("The case 'mara-venn-1' is here already", ran.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ADatabaseThatCannotBeReachedIsBadInput()
    {
        Ran ran = await Ran.Program("export", Path.Combine(_folder, "x.zip"), "--database", $"Host={_folder};Username=nobody");

        ran.AssertBadInput();
        (await Ran.Program("export", Path.Combine(_folder, "x.zip"), "--database", "neither this nor that")).AssertBadInput();
    }

    // Like a case made in the browser.
    private async Task FillAsync(string name)
    {
        Instant now = Instant.FromUtc(2026, 11, 25, 8, 0);
        CaseStore store = await new DataFolder(Path.Combine(_folder, name)).OpenStoreAsync(null, Cancellation);
        byte[] Demo(string file) => File.ReadAllBytes(Ran.InCheckout("examples", "museum-registrar", file));
        await store.AddAsync(
            new StoredCase
            {
                Key = "mara-venn-1",
                Candidate = "Mara Venn",
                ExamDay = new LocalDate(2026, 12, 16),
                CreatedAt = now,
                Exam = new StoredExam { Key = "exam-1", Name = "Registrar", Versions = [new StoredExamVersion { At = now, Name = "exam.yaml", Content = Demo("exam.yaml") }] },
                Evidence = [.. KeptRows.Of(FileRole.Evidence, "mara-venn.csv", Demo("mara-venn.csv"), now).Cast<EvidenceRow>()],
                Files = [.. KeptRows.Of(FileRole.FreeTime, "mara-venn.free.yaml", Demo("mara-venn.free.yaml"), now).Cast<StoredFile>()],
            },
            Cancellation);
    }
}
