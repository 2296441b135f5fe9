using System.IO.Compression;
using System.Text;

using Homestretch.Core.Rooms;
using Homestretch.Files;
using Homestretch.Files.Documents;

using Microsoft.EntityFrameworkCore;

using NodaTime;

namespace Homestretch.Store.Tests;

/// <summary>What holds on every database; nothing is mocked.</summary>
public abstract class CaseStoreTests
{
    private static readonly Instant Noon = Samples.Noon;

    protected static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    /// <summary>Opens the test's own database, or a further one of another name, making it where it is missing.</summary>
    protected abstract Task<CaseStore> OpenAsync(string name = "first");

    /// <summary>The database as EF Core sees it.</summary>
    protected abstract Task<HomestretchDatabase> DatabaseAsync();

    [Fact]
    public async Task A_case_comes_back_as_it_was_after_the_database_is_opened_again()
    {
        StoredCase added = Samples.Case("ada-1", "Ada Ø. 例");
        await (await OpenAsync()).AddAsync(added, Cancellation);

        StoredCase? found = await (await OpenAsync()).FindAsync("ada-1", Cancellation);

        Assert.NotNull(found);
        Assert.Equal("Ada Ø. 例", found.Candidate);
        Assert.Equal("Registrar", found.Exam!.Name);
        Assert.Equal([1, 2, 3, 0, 255], Assert.Single(found.Exam.Versions).Content);
        Assert.Equal(new LocalDate(2026, 12, 16), found.CurrentExamDay);
        Assert.Equal(Noon, found.CreatedAt);
        Assert.Equal([FileRole.FreeTime, FileRole.Busy, FileRole.Cohort], found.Files.Select(f => f.Role));
        Assert.All(added.Files.Zip(found.Files), pair => Assert.Equal(pair.First.Content, pair.Second.Content));
        Assert.Equal(added.Evidence.Select(Samples.All), found.Evidence.Select(Samples.All));
        Assert.Equal(added.Sessions.Select(Samples.All), found.Sessions.Select(Samples.All));
    }

    [Fact]
    public async Task Cases_of_a_room_are_kept_all_or_none()
    {
        CaseStore store = await OpenAsync();
        StoredCase Member(string key, string candidate)
        {
            StoredCase made = Samples.Case(key, candidate);
            made.Exam = null;
            return made;
        }

        StoredExam exam = Samples.Case("ada-1", "Ada").Exam!;
        Assert.Empty(await store.AddAllAsync(exam, [Member("ada-1", "Ada"), Member("bo-1", "Bo")], Cancellation));
        Assert.Equal(["ada-1", "bo-1"], (await store.ListAsync(Cancellation)).Select(c => c.Key));
        Assert.Equal(exam.Key, await store.ExamOfAsync([1, 2, 3, 0, 255], Cancellation));
        Assert.Equal(["Ada", "Bo"], (await store.CandidatesOfAsync(exam.Key, Cancellation)).Order(StringComparer.Ordinal));

        // The same file under another key is the same exam; one person who is here keeps everybody out, and so does one who is given twice.
        StoredExam same = Samples.Case("other", "Other").Exam!;
        Assert.Equal(["BO"], await store.AddAllAsync(same, [Member("cy-1", "Cy"), Member("bo-2", "BO")], Cancellation));
        Assert.Equal(["cy"], await store.AddAllAsync(same, [Member("cy-1", "Cy"), Member("cy-2", "cy")], Cancellation));
        await Assert.ThrowsAsync<DbUpdateException>(() => store.AddAllAsync(same, [Member("cy-1", "Cy"), Member("ada-1", "Di")], Cancellation));
        Assert.Equal(2, (await store.ListAsync(Cancellation)).Count);

        // A removed case does not keep its person out.
        await store.RemoveAsync("bo-1", Noon, Cancellation);
        Assert.Empty(await store.AddAllAsync(same, [Member("cy-1", "Cy"), Member("bo-2", "Bo")], Cancellation));
        Assert.Single((await store.ListAsync(Cancellation)).Select(c => c.ExamName).Distinct());
        Assert.Equal(3, (await store.FindAsync("cy-1", Cancellation))!.Evidence.Count);
        Assert.Single(await store.ListExamsAsync(Cancellation));
    }

    [Fact]
    public async Task Of_two_imports_at_once_one_finds_the_people_here()
    {
        CaseStore store = await OpenAsync();
        StoredExam Exam(string key) => new() { Key = key, Name = "Registrar", Versions = [new StoredExamVersion { At = Noon, Name = "exam.yaml", Content = [7] }] };
        StoredCase[] Room(string suffix) => [.. Enumerable.Range(0, 20).Select(i => Samples.Case($"person-{i}-{suffix}", $"Person {i}")).Select(c =>
        {
            c.Exam = null;
            return c;
        })];
        Task<IReadOnlyList<string>>[] both = [.. new[] { "one", "two" }.Select(s => Task.Run(() => store.AddAllAsync(Exam("exam-" + s), Room(s), Cancellation)))];
        IReadOnlyList<string>[] already = await Task.WhenAll(both);

        Assert.Equal([0, 20], already.Select(a => a.Count).Order());
        Assert.Equal(20, (await store.ListAsync(Cancellation)).Count);
    }

    [Fact]
    public async Task Figures_of_a_case_follow_everything_that_changes_it()
    {
        CaseStore store = await OpenAsync();
        LocalDate noonDay = Noon.InUtc().Date;
        StoredCase added = Samples.Case("ada-1", "Ada");
        added.Plans.Clear();
        added.Results.Clear();
        await store.AddAsync(added, Cancellation);
        CandidateFigures first = await FiguresAsync(store);
        Assert.Equal((new LocalDate(2026, 12, 16), noonDay, true, false), (first.ExamDay, first.HeardOn, first.HasLink, first.HasResult));
        Assert.Null(first.ByDay.PassChanceOn(noonDay));
        Assert.Equal((0, 40, 1), first.ByDay.Sum(noonDay.PlusDays(-7), noonDay));

        // The first plan says what was planned from its day on; a later one from the day after it was made.
        PlanDocument few = SamplePlan.Document(Noon, 2, first.ExamDay);
        PlanDocument many = SamplePlan.Document(Noon + Duration.FromDays(4), 7, first.ExamDay);
        Assert.True(many.PassChance > few.PassChance);
        await store.KeepAsync("ada-1", [SamplePlan.Row(few, Noon)], Cancellation);
        await store.KeepAsync("ada-1", [SamplePlan.Row(many, Noon + Duration.FromDays(4))], Cancellation);
        CandidateFigures planned = await FiguresAsync(store);
        LocalDate change = noonDay.PlusDays(4);
        for (LocalDate day = noonDay.PlusDays(-3); day <= first.ExamDay; day = day.PlusDays(1))
        {
            Assert.Equal(SamplePlan.MinutesOn(day <= change ? few : many, day), planned.ByDay.Sum(day, day).Planned);
            Assert.Equal(day < change ? few.PassChance : many.PassChance, planned.ByDay.PassChanceOn(day)!.Value, 0.0005);
        }

        IReadOnlyList<PlanMoment> moments = await store.PlanMomentsAsync("ada-1", Cancellation);
        Assert.Equal([few.PassChance, many.PassChance], moments.Select(m => m.WithPlan!.Value));
        Assert.Equal([few.PassChanceWithoutStudy, many.PassChanceWithoutStudy], moments.Select(m => m.WithoutStudy!.Value));

        // Study, taken out and put back; dates as people write them.
        StudyRow study = new() { At = Noon + Duration.FromDays(5), Origin = Origin.Coach, Outcome = StudyOutcome.Done, Candidate = "Ada", Date = "28.11.2026", Topic = "Law", Minutes = "25", How = "learn" };
        await store.KeepAsync("ada-1", [study], Cancellation);
        LocalDate studied = new(2026, 11, 28);
        Assert.Equal((25, noonDay.PlusDays(5)), ((await FiguresAsync(store)).ByDay.Sum(studied, studied).Done, (await FiguresAsync(store)).HeardOn));
        await store.TakeOutAsync<StudyRow>("ada-1", [study.Id], Noon, Cancellation);
        Assert.Equal((0, noonDay), ((await FiguresAsync(store)).ByDay.Sum(studied, studied).Done, (await FiguresAsync(store)).HeardOn));
        await store.PutBackAsync<StudyRow>("ada-1", [study.Id], Cancellation);
        Assert.Equal(25, (await FiguresAsync(store)).ByDay.Sum(studied, studied).Done);

        // Link, exam day, result.
        await store.TakeOutAsync<PersonalLink>("ada-1", [.. (await store.LinksAsync("ada-1", Cancellation)).Select(l => l.Id)], Noon, Cancellation);
        Decision moved = new() { At = Noon, Origin = Origin.Coach, Text = "Later.", ExamDay = new LocalDate(2027, 1, 20), Figures = "{}" };
        await store.KeepAsync("ada-1", [new OfficialResult { At = Noon, Origin = Origin.Candidate, Date = first.ExamDay, Passed = false }], Cancellation);
        Assert.True((await FiguresAsync(store)).HasResult);
        await store.KeepAsync("ada-1", [moved], Cancellation);
        Assert.False((await FiguresAsync(store)).HasResult);
        await store.KeepAsync("ada-1", [new OfficialResult { At = Noon, Origin = Origin.Coach, Date = new LocalDate(2027, 1, 20), Passed = true }], Cancellation);
        CandidateFigures after = await FiguresAsync(store);
        Assert.Equal((new LocalDate(2027, 1, 20), false, true), (after.ExamDay, after.HasLink, after.HasResult));
        await store.TakeOutAsync<Decision>("ada-1", [moved.Id], Noon, Cancellation);
        Assert.Equal(first.ExamDay, (await FiguresAsync(store)).ExamDay);

        await store.RemoveAsync("ada-1", Noon, Cancellation);
        Assert.Empty(await store.ListedAsync(Cancellation));
    }

    [Fact]
    public async Task Figures_are_worked_out_for_older_databases_and_for_imports()
    {
        CaseStore store = await OpenAsync();
        await store.AddAsync(Samples.Case("ada-1", "Ada"), Cancellation);
        await store.AddAsync(Samples.Case("bo-1", "Bo"), Cancellation);
        await store.KeepAsync("ada-1", [SamplePlan.Row(SamplePlan.Document(Noon, 3, new(2026, 12, 16)), Noon)], Cancellation);
        string[] before = await AllFiguresAsync(store);
        Assert.Equal(2, before.Length);

        // As an older version of the program left it.
        await using (HomestretchDatabase database = await DatabaseAsync())
        {
            await database.Figures.ExecuteDeleteAsync(Cancellation);
            await database.Set<PlanVersion>().ExecuteUpdateAsync(
                set => set.SetProperty(p => p.WithPlan, (double?)null).SetProperty(p => p.WithoutStudy, (double?)null).SetProperty(p => p.FirstDay, (LocalDate?)null).SetProperty(p => p.Minutes, (string?)null),
                Cancellation);
        }

        Assert.Empty(await AllFiguresAsync(store));
        CaseStore again = await OpenAsync();
        Assert.Equal(before, await AllFiguresAsync(again));
        Assert.NotNull((await again.PlanMomentsAsync("ada-1", Cancellation))[^1].WithPlan);
        Assert.Null((await again.PlanMomentsAsync("bo-1", Cancellation))[^1].WithPlan);

        using MemoryStream zip = new();
        await again.ExportAsync(zip, cancellation: Cancellation);
        zip.Position = 0;
        CaseStore other = await OpenAsync("second");
        Assert.True((await other.ImportAsync(zip, "all.zip", Cancellation)).IsOk);
        Assert.Equal(before, await AllFiguresAsync(other));
    }

    // The list remembers what it has read; another program may write to the same database.
    [Fact]
    public async Task The_list_shows_what_another_program_has_changed_removed_and_erased()
    {
        CaseStore store = await OpenAsync();
        CaseStore other = await OpenAsync();
        await store.AddAsync(Samples.Case("ada-1", "Ada"), Cancellation);
        await store.AddAsync(Samples.Case("bo-1", "Bo"), Cancellation);
        string[] before = await AllFiguresAsync(store);
        Assert.Equal(before, await AllFiguresAsync(other));
        Assert.Equal(before, await AllFiguresAsync(store));

        await other.KeepAsync("ada-1", [SamplePlan.Row(SamplePlan.Document(Noon, 3, new(2026, 12, 16)), Noon)], Cancellation);
        string[] planned = await AllFiguresAsync(store);
        Assert.NotEqual(before[0], planned[0]);
        Assert.Equal(before[1], planned[1]);

        await other.RemoveAsync("bo-1", Noon, Cancellation);
        Assert.Equal([planned[0]], await AllFiguresAsync(store));
        await other.RestoreAsync("bo-1", Cancellation);
        Assert.Equal(planned, await AllFiguresAsync(store));

        // Erased and entered anew under the same key.
        await other.ErasePersonAsync("ada-1", Cancellation);
        await other.AddAsync(Samples.Case("ada-1", "Ada"), Cancellation);
        Assert.Equal(before[0], (await AllFiguresAsync(store))[0]);
    }

    private static async Task<CandidateFigures> FiguresAsync(CaseStore store) => Assert.Single(await store.ListedAsync(Cancellation)).Figures;

    private static async Task<string[]> AllFiguresAsync(CaseStore store)
        => [.. (await store.ListedAsync(Cancellation)).OrderBy(c => c.Key, StringComparer.Ordinal).Select(c =>
            $"{c.Key} {c.Candidate} {c.ExamKey} {c.Figures.ExamDay} {c.Figures.HeardOn} {c.Figures.HasLink} {c.Figures.HasResult} {c.Figures.ByDay.First} {c.Figures.ByDay.Write()}")];

    [Fact]
    public async Task Rows_keep_their_order()
    {
        CaseStore store = await OpenAsync();
        await store.AddAsync(Samples.Case("ada-1", "Ada"), Cancellation);
        await store.KeepAsync("ada-1", Enumerable.Range(0, 500).Select(i => Samples.Item("Ada", "long test", i)), Cancellation);

        StoredCase? found = await store.FindAsync("ada-1", Cancellation);

        Assert.Equal(Enumerable.Range(0, 500).Select(i => i.ToString(System.Globalization.CultureInfo.InvariantCulture)), found!.Evidence.Where(r => r.Attempt == "long test").Select(r => r.Item));
    }

    [Fact]
    public async Task A_removed_case_is_gone_until_it_is_restored_also_after_reopening()
    {
        CaseStore store = await OpenAsync();
        await store.AddAsync(Samples.Case("ada-1", "Ada"), Cancellation);

        Assert.True(await store.RemoveAsync("ada-1", Noon + Duration.FromHours(1), Cancellation));
        Assert.Null(await store.FindAsync("ada-1", Cancellation));
        Assert.Null(await store.VersionAsync("ada-1", Cancellation));
        Assert.Empty(await store.ListAsync(Cancellation));
        Assert.False(await store.RemoveAsync("ada-1", Noon, Cancellation));
        Assert.False(await store.KeepAsync("ada-1", [Samples.Item("Ada", "quiz", 1)], Cancellation));

        CaseStore again = await OpenAsync();
        CaseSummary removed = Assert.Single(await again.ListRemovedAsync(Cancellation));
        Assert.Equal(Noon + Duration.FromHours(1), removed.RemovedAt);
        Assert.True(await again.RestoreAsync("ada-1", Cancellation));
        Assert.False(await again.RestoreAsync("ada-1", Cancellation));
        Assert.Equal(3, (await again.FindAsync("ada-1", Cancellation))?.Evidence.Count);
        Assert.Empty(await again.ListRemovedAsync(Cancellation));
    }

    [Fact]
    public async Task Erasing_takes_only_cases_removed_before_the_limit_and_all_they_hold()
    {
        CaseStore store = await OpenAsync();
        foreach (string key in new[] { "old", "recent", "kept" })
        {
            await store.AddAsync(Samples.Case(key, key), Cancellation);
        }

        await store.RemoveAsync("old", Noon, Cancellation);
        await store.RemoveAsync("recent", Noon + Duration.FromDays(20), Cancellation);

        Assert.Equal(1, await store.EraseRemovedAsync(Noon + Duration.FromMilliseconds(1), Cancellation));
        Assert.Equal("recent", Assert.Single(await store.ListRemovedAsync(Cancellation)).Key);
        Assert.Equal("kept", Assert.Single(await store.ListAsync(Cancellation)).Key);
        await using HomestretchDatabase database = await DatabaseAsync();
        Assert.Equal(6, await database.Set<StoredFile>().CountAsync(Cancellation));
        Assert.Equal(6, await database.Set<EvidenceRow>().CountAsync(Cancellation));
        Assert.Equal(2, await database.Set<PlanVersion>().CountAsync(Cancellation));
    }

    [Fact]
    public async Task A_second_case_of_the_same_key_is_refused_and_changes_nothing()
    {
        CaseStore store = await OpenAsync();
        await store.AddAsync(Samples.Case("ada-1", "Ada"), Cancellation);

        await Assert.ThrowsAsync<DbUpdateException>(() => store.AddAsync(Samples.Case("ada-1", "Impostor"), Cancellation));

        Assert.Equal("Ada", Assert.Single(await store.ListAsync(Cancellation)).Candidate);
        await using HomestretchDatabase database = await DatabaseAsync();
        Assert.Equal(3, await database.Set<StoredFile>().CountAsync(Cancellation));
    }

    [Fact]
    public async Task Newest_cases_come_first()
    {
        CaseStore store = await OpenAsync();
        await store.AddAsync(Samples.Case("first", "F", Noon), Cancellation);
        await store.AddAsync(Samples.Case("third", "T", Noon + Duration.FromDays(2)), Cancellation);
        await store.AddAsync(Samples.Case("second", "S", Noon + Duration.FromTicks(1)), Cancellation);

        Assert.Equal(["third", "second", "first"], (await store.ListAsync(Cancellation)).Select(c => c.Key));
    }

    [Fact]
    public async Task Cases_with_the_same_exam_file_share_the_exam()
    {
        CaseStore store = await OpenAsync();
        await store.AddAsync(Samples.Case("one", "One"), Cancellation);
        await store.AddAsync(Samples.Case("two", "Two"), Cancellation);
        StoredCase other = Samples.Case("three", "Three");
        other.Exam!.Versions[0].Content = [9];
        await store.AddAsync(other, Cancellation);

        string[] exams = [.. await Task.WhenAll(new[] { "one", "two", "three" }.Select(async key => (await store.FindAsync(key, Cancellation))!.ExamKey))];

        Assert.Equal(exams[0], exams[1]);
        Assert.NotEqual(exams[0], exams[2]);
    }

    [Fact]
    public async Task What_is_taken_out_no_longer_counts_until_it_is_put_back()
    {
        CaseStore store = await OpenAsync();
        await store.AddAsync(Samples.Case("ada-1", "Ada"), Cancellation);
        await store.AddAsync(Samples.Case("ben-1", "Ben"), Cancellation);
        long[] ids = [.. (await store.FindAsync("ada-1", Cancellation))!.Evidence.Take(2).Select(r => r.Id)];

        Assert.Equal(0, await store.TakeOutAsync<EvidenceRow>("ben-1", ids, Noon, Cancellation));
        Assert.Equal(2, await store.TakeOutAsync<EvidenceRow>("ada-1", ids, Noon, Cancellation));
        Assert.Equal(0, await store.TakeOutAsync<EvidenceRow>("ada-1", ids, Noon, Cancellation));

        Assert.Single((await store.FindAsync("ada-1", Cancellation))!.Evidence);
        Assert.Equal(2, (await store.FindWholeAsync("ada-1", Cancellation))!.Evidence.Count(r => r.RemovedAt == Noon));
        Assert.Equal(2, await store.PutBackAsync<EvidenceRow>("ada-1", ids, Cancellation));
        Assert.Equal(3, (await store.FindAsync("ada-1", Cancellation))!.Evidence.Count);
    }

    [Fact]
    public async Task A_decision_moves_the_exam_day_and_undoing_it_moves_it_back()
    {
        CaseStore store = await OpenAsync();
        await store.AddAsync(Samples.Case("ada-1", "Ada"), Cancellation);
        LocalDate later = new(2027, 1, 20);
        Decision decision = new() { At = Noon, Origin = Origin.Coach, Text = "Postpone: more time for title and ethics.", ExamDay = later, Figures = "{}" };
        await store.KeepAsync("ada-1", [decision, new Decision { At = Noon, Origin = Origin.Coach, Text = "Two more hours a week.", Figures = "{}" }], Cancellation);

        Assert.Equal(later, (await store.FindAsync("ada-1", Cancellation))!.CurrentExamDay);
        Assert.Equal(later, Assert.Single(await store.ListAsync(Cancellation)).ExamDay);
        await store.TakeOutAsync<Decision>("ada-1", [decision.Id], Noon, Cancellation);

        Assert.Equal(new LocalDate(2026, 12, 16), (await store.FindAsync("ada-1", Cancellation))!.CurrentExamDay);
        Assert.Equal(new LocalDate(2026, 12, 16), Assert.Single(await store.ListAsync(Cancellation)).ExamDay);
    }

    [Fact]
    public async Task Every_change_shows_in_the_version()
    {
        CaseStore store = await OpenAsync();
        await store.AddAsync(Samples.Case("ada-1", "Ada"), Cancellation);
        List<CaseVersion?> seen = [await store.VersionAsync("ada-1", Cancellation)];
        await store.KeepAsync("ada-1", [Samples.Item("Ada", "quiz", 1)], Cancellation);
        seen.Add(await store.VersionAsync("ada-1", Cancellation));
        long id = (await store.FindAsync("ada-1", Cancellation))!.Evidence[^1].Id;
        await store.TakeOutAsync<EvidenceRow>("ada-1", [id], Noon, Cancellation);
        seen.Add(await store.VersionAsync("ada-1", Cancellation));
        await store.PutBackAsync<EvidenceRow>("ada-1", [id], Cancellation);
        seen.Add(await store.VersionAsync("ada-1", Cancellation));

        Assert.DoesNotContain(null, seen);
        Assert.Equal(4, seen.Distinct().Count());
    }

    [Fact]
    public async Task A_link_opens_its_case_until_it_is_revoked_or_the_case_removed()
    {
        CaseStore store = await OpenAsync();
        await store.AddAsync(Samples.Case("ada-1", "Ada"), Cancellation);

        Assert.Equal("ada-1", await store.CaseOfPageAsync("page-of-ada-1", Cancellation));
        Assert.Equal("ada-1", await store.CaseOfFeedAsync("feed-of-ada-1", Cancellation));
        Assert.Null(await store.CaseOfPageAsync("feed-of-ada-1", Cancellation));
        Assert.Null(await store.CaseOfFeedAsync("page-of-ada-1", Cancellation));
        await store.RemoveAsync("ada-1", Noon, Cancellation);
        Assert.Null(await store.CaseOfPageAsync("page-of-ada-1", Cancellation));
        await store.RestoreAsync("ada-1", Cancellation);
        await store.TakeOutAsync<PersonalLink>("ada-1", [.. (await store.FindAsync("ada-1", Cancellation))!.Links.Select(l => l.Id)], Noon, Cancellation);
        Assert.Null(await store.CaseOfPageAsync("page-of-ada-1", Cancellation));
        Assert.Null(await store.CaseOfFeedAsync("feed-of-ada-1", Cancellation));
    }

    [Fact]
    public async Task An_export_read_into_an_empty_store_loses_nothing()
    {
        CaseStore store = await OpenAsync();
        await store.AddAsync(Samples.Case("ada-1", "Ada Ø. 例"), Cancellation);
        await store.AddAsync(Samples.Case("ben-1", "Ben, \"the\" second"), Cancellation);
        await store.TakeOutAsync<EvidenceRow>("ada-1", [(await store.FindAsync("ada-1", Cancellation))!.Evidence[1].Id], Noon, Cancellation);
        await store.RemoveAsync("ben-1", Noon, Cancellation);
        using MemoryStream first = new();
        StoreCounts written = await store.ExportAsync(first, null, Cancellation);

        CaseStore empty = await OpenAsync("second");
        first.Position = 0;
        ReadResult<StoreCounts> read = await empty.ImportAsync(first, "export.zip", Cancellation);
        using MemoryStream again = new();
        await empty.ExportAsync(again, null, Cancellation);

        Assert.Empty(read.Problems);
        Assert.Equal(new StoreCounts(1, 2, 6, 4, 2, 2, 6), written);
        Assert.Equal(written, read.Value);
        Assert.Equal(first.ToArray(), again.ToArray());
        StoredCase? found = await empty.FindWholeAsync("ada-1", Cancellation);
        Assert.Equal((await store.FindWholeAsync("ada-1", Cancellation))!.Evidence.Select(Samples.All), found!.Evidence.Select(Samples.All));
        OfficialResult result = Assert.Single(found.Results);
        Assert.Equal((new LocalDate(2026, 12, 16), true, "78 of 110"), (result.Date, result.Passed, result.Score));
        Assert.Equal("ada-1", await empty.CaseOfPageAsync("page-of-ada-1", Cancellation));
        Assert.Equal(Noon, Assert.Single(await empty.ListRemovedAsync(Cancellation)).RemovedAt);
    }

    [Fact]
    public async Task An_export_holds_files_that_the_readers_of_files_take()
    {
        CaseStore store = await OpenAsync();
        await store.AddAsync(Samples.Case("ada-1", "Ada"), Cancellation);
        using MemoryStream zipped = new();
        await store.ExportAsync(zipped, "ada-1", Cancellation);
        using ZipArchive zip = new(zipped, ZipArchiveMode.Read);

        Assert.Equal(
            "candidate,attempt,kind,date,topic,subtopic,item,correct,seconds,sure,items,percent,band,note,chosen,key,against exam\n"
                + "Ada,diagnostic,diagnostic,2026-11-20,Cataloguing,,0,yes,,,,,,,,,\n"
                + "Ada,diagnostic,diagnostic,2026-11-20,Cataloguing,,1,yes,,,,,,,,,\n"
                + "Ada,diagnostic,diagnostic,2026-11-20,Cataloguing,,2,yes,,,,,,,,,\n",
            Text(zip, "cases/ada-1/evidence.csv"));
        Assert.Equal("candidate,date,topic,subtopic,minutes,how,block,note\nAda,2026-11-22,Cataloguing,,40,learn,,\"half, then half\"\n", Text(zip, "cases/ada-1/study-log.csv"));
        Assert.Equal(
            "term,topic,definition,coach definition,noted,answers\n"
                + "Frass,Cataloguing,\"dust and droppings; \"\"quoted\"\"\",,2026-11-25,\"2026-11-26 not; 2026-11-27 knew\"\n"
                + "orphan work,Cataloguing,,,2026-11-25,\n",
            Text(zip, "cases/ada-1/words.csv"));
        Assert.Equal([$"exams/{(await store.FindAsync("ada-1", Cancellation))!.ExamKey}/files/0001.csv", $"exams/{(await store.FindAsync("ada-1", Cancellation))!.ExamKey}/files/0002.bin"],
            zip.Entries.Select(e => e.FullName).Where(n => n.StartsWith("exams/", StringComparison.Ordinal) && n.Contains("/files/", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task Words_of_a_file_become_rows_and_a_file_again()
    {
        CaseStore store = await OpenAsync();
        await store.AddAsync(Samples.Case("ada-1", "Ada"), Cancellation);
        const string File = "term,topic,definition,coach definition,noted,answers\nfrass,Pests,dust,see poster,2026-11-25,2026-11-26 not;27.11.2026 partly\nmount,,,,2026-11-26,\n";
        IReadOnlyList<KeptRow> rows = KeptRows.Words("words.csv", Encoding.UTF8.GetBytes(File), Noon).Value!;
        CaseVersion? before = await store.VersionAsync("ada-1", Cancellation);

        Assert.True(await store.KeepAsync("ada-1", rows, Cancellation));
        (IReadOnlyList<WordRow> words, IReadOnlyList<RecallRow> recalls) = await store.WordsAsync("ada-1", Cancellation);

        Assert.Equal(before, await store.VersionAsync("ada-1", Cancellation));
        Assert.Equal(
            "term,topic,definition,coach definition,noted,answers\n"
                + "frass,Pests,dust,see poster,2026-11-25,\"2026-11-26 not; 2026-11-27 knew; 2026-11-26 not; 27.11.2026 partly\"\n"
                + "orphan work,Cataloguing,,,2026-11-25,\nmount,,,,2026-11-26,\n",
            Encoding.UTF8.GetString(KeptRows.WordText(words, recalls)));
        Assert.Equal(3, words[^1].OriginLine);

        // What is taken out gives way to what was written before it.
        await store.TakeOutAsync<WordRow>("ada-1", [words.Last(w => w.Term == "frass").Id], Noon, Cancellation);
        (words, recalls) = await store.WordsAsync("ada-1", Cancellation);
        Assert.Contains("\nFrass,Cataloguing,", Encoding.UTF8.GetString(KeptRows.WordText(words, recalls)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Rows_for_several_cases_are_kept_in_all_of_them_or_in_none()
    {
        CaseStore store = await OpenAsync();
        foreach ((string key, string candidate) in new[] { ("ada-1", "Ada"), ("bo-1", "Bo"), ("cy-1", "Cy") })
        {
            await store.AddAsync(Samples.Case(key, candidate), Cancellation);
        }

        Dictionary<string, IEnumerable<KeptRow>> Rows(string definition, params string[] keys) => keys.ToDictionary(k => k, IEnumerable<KeptRow> (_) => [Samples.Word("mount", definition)]);
        async Task<string[]> SaidAsync(string key) => [.. (await store.WordsAsync(key, Cancellation)).Words.Where(w => w.Term == "mount").Select(w => w.Definition)];
        Assert.True(await store.KeepAllAsync(Rows("what holds it", "bo-1", "ada-1"), Cancellation));
        Assert.Equal(["what holds it"], await SaidAsync("ada-1"));
        Assert.Equal(["what holds it"], await SaidAsync("bo-1"));
        Assert.Empty(await SaidAsync("cy-1"));

        // The last of them is no longer in use; the first two would have taken it.
        await store.RemoveAsync("cy-1", Noon, Cancellation);
        Assert.False(await store.KeepAllAsync(Rows("a support", "ada-1", "bo-1", "cy-1"), Cancellation));
        Assert.Single(await SaidAsync("ada-1"));
        Assert.Single(await SaidAsync("bo-1"));

        // A row that the database refuses, after others that it would take.
        Dictionary<string, IEnumerable<KeptRow>> broken = Rows("a support", "ada-1");
        broken["bo-1"] = [new WordRow { At = Noon, Origin = Origin.Coach, Term = null!, Noted = "2026-11-25" }];
        await Assert.ThrowsAsync<DbUpdateException>(() => store.KeepAllAsync(broken, Cancellation));
        Assert.Single(await SaidAsync("ada-1"));

        // Two rooms at once, named in opposite orders, wait for each other.
        bool[] both = await Task.WhenAll(store.KeepAllAsync(Rows("one", "ada-1", "bo-1"), Cancellation), store.KeepAllAsync(Rows("two", "bo-1", "ada-1"), Cancellation));
        Assert.All(both, Assert.True);
        Assert.Equal(await SaidAsync("ada-1"), await SaidAsync("bo-1"));
    }

    [Fact]
    public async Task The_cases_of_an_exam_and_the_topics_they_name_are_those_that_count()
    {
        CaseStore store = await OpenAsync();
        await store.AddAsync(Samples.Case("ada-1", "Ada"), Cancellation);
        await store.AddAsync(Samples.Case("bo-1", "bo"), Cancellation);
        await store.AddAsync(Samples.Case("cy-1", "Cy"), Cancellation);
        StoredCase ada = (await store.FindAsync("ada-1", Cancellation))!;
        await store.RemoveAsync("cy-1", Noon, Cancellation);

        Assert.Equal([new("ada-1", "Ada"), new ExamCase("bo-1", "bo")], await store.CasesOfExamAsync(ada.ExamKey, Cancellation));
        Assert.Empty(await store.CasesOfExamAsync("nobody", Cancellation));
        TopicInUse[] expected = [.. ada.Evidence.Select(r => (r.Topic, r.Subtopic)).Concat(ada.Sessions.Select(r => (r.Topic, r.Subtopic))).Distinct().Select(t => new TopicInUse("ada-1", "Ada", t.Topic, t.Subtopic))];
        Assert.NotEmpty(expected);
        IReadOnlyList<TopicInUse> all = await store.TopicsInUseAsync(ada.ExamKey, Cancellation);
        Assert.Equal(expected.ToHashSet(), all.Where(t => t.CaseKey == "ada-1").ToHashSet());
        Assert.Equal(2 * expected.Length, all.Count);

        await store.TakeOutAsync<EvidenceRow>("ada-1", [.. ada.Evidence.Select(r => r.Id)], Noon, Cancellation);
        await store.TakeOutAsync<StudyRow>("ada-1", [.. ada.Sessions.Select(r => r.Id)], Noon, Cancellation);
        (IReadOnlyList<WordRow> words, _) = await store.WordsAsync("ada-1", Cancellation);
        Assert.Contains(new TopicInUse("ada-1", "Ada", words[0].Topic, ""), await store.TopicsInUseAsync(ada.ExamKey, Cancellation));
        await store.TakeOutAsync<WordRow>("ada-1", [.. words.Select(w => w.Id)], Noon, Cancellation);
        Assert.DoesNotContain(await store.TopicsInUseAsync(ada.ExamKey, Cancellation), t => t.CaseKey == "ada-1");
    }

    [Fact]
    public async Task The_latest_version_of_an_exam_counts_and_the_one_before_it_again_when_it_is_taken_out()
    {
        CaseStore store = await OpenAsync();
        await store.AddAsync(Samples.Case("ada-1", "Ada"), Cancellation);
        string key = (await store.FindAsync("ada-1", Cancellation))!.ExamKey;
        CaseVersion? first = await store.VersionAsync("ada-1", Cancellation);

        Assert.True(await store.AddExamVersionAsync(key, new StoredExamVersion { At = Noon + Duration.FromDays(1), Origin = Origin.Coach, Name = "second.yaml", Content = [4] }, "Registrar 2027", Cancellation));
        Assert.False(await store.AddExamVersionAsync("nobody", new StoredExamVersion { At = Noon, Name = "second.yaml", Content = [4] }, "Nobody", Cancellation));
        StoredExam exam = (await store.FindExamAsync(key, Cancellation))!;

        Assert.NotEqual(first, await store.VersionAsync("ada-1", Cancellation));
        Assert.Equal(["exam.yaml", "second.yaml"], exam.Versions.Select(v => v.Name));
        Assert.Equal([Origin.File, Origin.Coach], exam.Versions.Select(v => v.Origin));
        Assert.Equal(new ExamSummary(key, "Registrar 2027", 1, Noon + Duration.FromDays(1)), Assert.Single(await store.ListExamsAsync(Cancellation)));
        Assert.Equal("second.yaml", (await store.CurrentVersionAsync(key, Cancellation))!.Name);
        Assert.Null(await store.CurrentVersionAsync("nobody", Cancellation));
        Assert.True(await store.MarkExamVersionAsync(key, exam.Versions[1].Id, Noon, "Registrar", Cancellation));
        Assert.Equal("exam.yaml", (await store.CurrentVersionAsync(key, Cancellation))!.Name);
        Assert.False(await store.MarkExamVersionAsync(key, exam.Versions[1].Id, Noon, "Registrar", Cancellation));
        Assert.Equal(first, await store.VersionAsync("ada-1", Cancellation));
        Assert.Equal("Registrar", Assert.Single(await store.ListExamsAsync(Cancellation)).Name);

        // The last one cannot go.
        Assert.False(await store.MarkExamVersionAsync(key, exam.Versions[0].Id, Noon, "Nothing", Cancellation));
        Assert.Equal("Registrar", Assert.Single(await store.ListExamsAsync(Cancellation)).Name);
        Assert.True(await store.MarkExamVersionAsync(key, exam.Versions[1].Id, null, "Registrar 2027", Cancellation));
        Assert.Equal([4], (await store.FindAsync("ada-1", Cancellation))!.Exam!.Versions[^1].Content);
    }

    [Fact]
    public async Task An_exam_without_cases_keeps_what_there_is_to_study_from()
    {
        CaseStore store = await OpenAsync();
        StoredExam exam = Samples.Case("x", "X").Exam!;
        exam.Files.Clear();
        await store.AddExamAsync(exam, Cancellation);

        Assert.True(await store.KeepExamFilesAsync(exam.Key, [Items("a.csv"), Items("b.zip"), new StoredExamFile { At = Noon, Role = ExamFileRole.Resources, Name = "shelf.csv", Content = [1] }], Cancellation));
        Assert.False(await store.KeepExamFilesAsync("nobody", [Items("a.csv")], Cancellation));
        IReadOnlyList<StoredExamFile> items = await store.ExamFilesAsync(exam.Key, ExamFileRole.QuizItems, Cancellation);

        Assert.Equal(["a.csv", "b.zip"], items.Select(f => f.Name));
        Assert.Equal(0, await store.MarkExamFilesAsync("nobody", [items[0].Id], Noon, Cancellation));
        Assert.Equal(1, await store.MarkExamFilesAsync(exam.Key, [items[0].Id], Noon, Cancellation));
        Assert.Equal("b.zip", Assert.Single(await store.ExamFilesAsync(exam.Key, ExamFileRole.QuizItems, Cancellation)).Name);
        Assert.Equal(1, await store.MarkExamFilesAsync(exam.Key, [items[0].Id], null, Cancellation));
        Assert.Equal(3, (await store.FindExamAsync(exam.Key, Cancellation))!.Files.Count);

        // A case that joins it finds its resources, and sees when they change.
        await store.AddAsync(Samples.Case("x", "X"), Cancellation);
        CaseVersion? before = await store.VersionAsync("x", Cancellation);
        StoredExamFile shelf = Assert.Single((await store.FindAsync("x", Cancellation))!.Exam!.Files);
        Assert.Equal([1], shelf.Content);
        await store.MarkExamFilesAsync(exam.Key, [shelf.Id], Noon, Cancellation);
        Assert.NotEqual(before, await store.VersionAsync("x", Cancellation));

        static StoredExamFile Items(string name) => new() { At = Noon, Role = ExamFileRole.QuizItems, Name = name, Content = [2] };
    }

    [Fact]
    public async Task What_is_here_already_is_not_imported_over_and_all_of_it_is_named()
    {
        CaseStore store = await OpenAsync();
        await store.AddAsync(Samples.Case("ada-1", "Ada"), Cancellation);
        await store.AddAsync(Samples.Case("ben-1", "Ben"), Cancellation);
        using MemoryStream zipped = new();
        await store.ExportAsync(zipped, null, Cancellation);
        zipped.Position = 0;

        ReadResult<StoreCounts> read = await store.ImportAsync(zipped, "export.zip", Cancellation);

        Assert.Equal(
            ["export.zip/cases/ada-1/case.json", "export.zip/cases/ben-1/case.json"],
            read.Problems.Where(p => p.Message.Contains("is here already", StringComparison.Ordinal)).Select(p => p.File));
        Assert.Equal(2, read.Problems.Length);
    }

    [Theory]
    [InlineData("case.json", "\"attempt\"", "\"atempt\"")]
    [InlineData("case.json", "\"origin\": \"coach\"", "\"origin\": \"oracle\"")]
    [InlineData("case.json", "2026-12-16", "2026-12-96")]
    [InlineData("case.json", "\"key\": \"ada-1\"", "\"key\": \"eve-1\"")]
    [InlineData("0001.yaml", "", null)]
    [InlineData("homestretch-export.json", "", null)]
    public async Task A_broken_export_is_refused_with_the_place_and_nothing_is_kept(string file, string from, string? to)
    {
        CaseStore store = await OpenAsync();
        await store.AddAsync(Samples.Case("ada-1", "Ada"), Cancellation);
        using MemoryStream zipped = new();
        await store.ExportAsync(zipped, null, Cancellation);
        using MemoryStream broken = Changed(zipped, file, from, to);
        CaseStore empty = await OpenAsync("second");

        ReadResult<StoreCounts> read = await empty.ImportAsync(broken, "broken.zip", Cancellation);

        FileProblem problem = read.Problems[0];
        Assert.StartsWith("broken.zip", problem.File, StringComparison.Ordinal);
        Assert.True(problem.Line >= 1);
        Assert.Empty(await empty.ListAsync(Cancellation));
        await using Stream noZip = new MemoryStream([1, 2, 3]);
        Assert.Contains("no zip file", Assert.Single((await empty.ImportAsync(noZip, "x.zip", Cancellation)).Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Many_writers_and_readers_at_once_lose_nothing_and_never_see_half_a_case()
    {
        CaseStore store = await OpenAsync();
        const int Writers = 4;
        const int Each = 10;
        using CancellationTokenSource done = CancellationTokenSource.CreateLinkedTokenSource(Cancellation);

        Task[] readers = [.. Enumerable.Range(0, 2).Select(_ => Task.Run(
            async () =>
            {
                while (!done.IsCancellationRequested)
                {
                    foreach (CaseSummary summary in await store.ListAsync(Cancellation))
                    {
                        StoredCase? found = await store.FindAsync(summary.Key, Cancellation);
                        Assert.NotNull(found);
                        Assert.Equal(3, found.Files.Count);
                        Assert.Equal(0, found.Evidence.Count % 3);
                    }
                }
            },
            Cancellation))];
        await Task.WhenAll(Enumerable.Range(0, Writers).Select(writer => Task.Run(
            async () =>
            {
                for (int i = 0; i < Each; i++)
                {
                    await store.AddAsync(Samples.Case($"case-{writer}-{i}", "C"), Cancellation);
                    await store.KeepAsync($"case-{writer}-{i}", Enumerable.Range(0, 3).Select(n => Samples.Item("C", "quiz", n)), Cancellation);
                }
            },
            Cancellation)));
        await done.CancelAsync();
        await Task.WhenAll(readers);

        Assert.Equal(Writers * Each, (await store.ListAsync(Cancellation)).Count);
    }

    [Fact]
    public async Task An_erased_person_is_gone_from_the_other_cases_of_the_exam_too()
    {
        CaseStore store = await OpenAsync();
        await store.AddAsync(Samples.Case("ada-1", "Ada Ø"), Cancellation);
        StoredCase ben = Samples.Case("ben-1", "Ben");
        ben.Evidence.Add(Samples.Item("ADA ø", "room test", 1));
        ben.Files.Add(Samples.File(FileRole.Cohort, "candidate,attempt,kind,date,topic,correct,items\nAda ø,a,quiz,2026-11-01,T,1,2\nCyd,a,quiz,2026-11-01,T,2,2\n"));
        ben.Files.Add(Samples.File(FileRole.Cohort, "candidate,attempt,kind,date,topic,correct,items\nAda Ø,b,quiz,2026-11-01,T,1,2\n"));
        await store.AddAsync(ben, Cancellation);
        await store.AddAsync(Samples.Case("ada-2", "ADA ø"), Cancellation);
        await store.RemoveAsync("ada-2", Noon, Cancellation);
        CaseVersion? before = await store.VersionAsync("ben-1", Cancellation);

        Assert.True(await store.ErasePersonAsync("ada-1", Cancellation));
        Assert.False(await store.ErasePersonAsync("ada-1", Cancellation));

        StoredCase? left = await store.FindWholeAsync("ben-1", Cancellation);
        Assert.Empty(await store.ListRemovedAsync(Cancellation));
        Assert.Equal("Ben", Assert.Single(await store.ListAsync(Cancellation)).Candidate);
        Assert.NotEqual(before, await store.VersionAsync("ben-1", Cancellation));
        Assert.Equal(["Ben", "Ben", "Ben"], left!.Evidence.Select(r => r.Candidate));
        string cohort = Assert.Single(left.Files.Where(f => f.Role == FileRole.Cohort && f.Name == "sample").Select(f => Encoding.UTF8.GetString(f.Content)));
        Assert.Contains("Cyd,a,quiz", cohort, StringComparison.Ordinal);
        Assert.DoesNotContain("Ada", cohort, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task The_committed_migrations_match_the_model()
    {
        await OpenAsync();
        await using HomestretchDatabase database = await DatabaseAsync();

        Assert.False(database.Database.HasPendingModelChanges());
        Assert.Empty(await database.Database.GetPendingMigrationsAsync(Cancellation));
    }

    [Fact]
    public Task A_killed_writer_loses_nothing_it_acknowledged_and_leaves_nothing_half_written()
        => Kills.RunAsync(Place, () => OpenAsync(), Cancellation);

    /// <summary>How a writer in another process reaches the test's database.</summary>
    protected abstract string[] Place { get; }

    private static string Text(ZipArchive zip, string path)
    {
        using StreamReader reader = new(zip.GetEntry(path)!.Open());
        return reader.ReadToEnd();
    }

    // The same zip with one text replaced, or one entry left out.
    private static MemoryStream Changed(MemoryStream zipped, string file, string from, string? to)
    {
        MemoryStream changed = new();
        using ZipArchive read = new(zipped, ZipArchiveMode.Read, leaveOpen: true);
        using (ZipArchive write = new(changed, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (ZipArchiveEntry entry in read.Entries.Where(e => to is not null || Path.GetFileName(e.FullName) != file))
            {
                using MemoryStream content = new();
                using (Stream source = entry.Open())
                {
                    source.CopyTo(content);
                }

                byte[] bytes = content.ToArray();
                if (to is not null && Path.GetFileName(entry.FullName) == file)
                {
                    string text = Encoding.UTF8.GetString(bytes);
                    Assert.Contains(from, text, StringComparison.Ordinal);
                    bytes = Encoding.UTF8.GetBytes(text.Replace(from, to, StringComparison.Ordinal));
                }

                using Stream target = write.CreateEntry(entry.FullName).Open();
                target.Write(bytes);
            }
        }

        changed.Position = 0;
        return changed;
    }
}
