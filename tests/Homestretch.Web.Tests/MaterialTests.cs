using System.Net;

using Homestretch.Store;

using NodaTime;

namespace Homestretch.Web.Tests;

/// <summary>Material of an exam's catalogue on the blocks of a plan, wherever they are shown.</summary>
public sealed class MaterialTests(SharedServer server)
{
    private static readonly string Examples = ServerProcess.BuildValue("Examples");

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Blocks_name_the_part_of_the_material_that_belongs_to_them_and_gaps_are_said()
    {
        using HttpClient client = new() { BaseAddress = server.Process.Address };
        (string address, string link, _) = await PersonalTests.MakeByRequestsAsync(client, nameof(Blocks_name_the_part_of_the_material_that_belongs_to_them_and_gaps_are_said));
        Assert.DoesNotContain("(printed, pages 1 to 64)", await PageAsync(client, address), StringComparison.Ordinal);
        await AddAsync(server.Data, address, (ExamFileRole.Resources, "resources.csv"));

        // A plan that is made from now on names it; one that was kept before does not change.
        string page = await PageAsync(client, address);
        Assert.Matches("With</span> [A-Z]", page);
        Assert.Contains("Loans from A to Z is older than the blueprint of ", page, StringComparison.Ordinal);
        Assert.Contains("What to study from", await PageAsync(client, address + "/handout"), StringComparison.Ordinal);
        Assert.Contains("DESCRIPTION:With ", await PageAsync(client, address + "/plan.ics"), StringComparison.Ordinal);
        await PersonalTests.PostAsync(client, link + "/quiz", link + "/quiz", ("right-0", "1"), ("of-0", "4"));

        string today = await PageAsync(client, link);
        Assert.Matches("With</span> [A-Z]", today);
        int at = today.IndexOf("/feed/", StringComparison.Ordinal);
        Assert.Contains("DESCRIPTION:With ", await PageAsync(client, today[at..today.IndexOf('"', at)]), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_catalogue_that_no_longer_goes_with_the_exam_hinders_nothing_and_is_named()
    {
        using HttpClient client = new() { BaseAddress = server.Process.Address };
        (string address, _, _) = await PersonalTests.MakeByRequestsAsync(client, nameof(A_catalogue_that_no_longer_goes_with_the_exam_hinders_nothing_and_is_named));
        await AddAsync(server.Data, address, ExamFileRole.Resources, "shelf.csv", "title,kind,topics\nA book,teaches,Astronomy\n"u8.ToArray());

        string page = await PageAsync(client, address);

        Assert.Contains("The catalogue of material cannot be read for this exam, so no block names any: shelf.csv:2:", page, StringComparison.Ordinal);
        Assert.Contains("Your plan", page, StringComparison.Ordinal);
    }

    /// <summary>Keeps a file of the demo with the exam of a case.</summary>
    internal static async Task AddAsync(string folder, string address, (ExamFileRole Role, string Name) file)
        => await AddAsync(folder, address, file.Role, file.Name, await File.ReadAllBytesAsync(Path.Combine(Examples, file.Name), Cancellation));

    /// <summary>Keeps a file with the exam of a case.</summary>
    internal static async Task AddAsync(string folder, string address, ExamFileRole role, string name, byte[] content)
    {
        CaseStore store = await CaseStore.OpenFileAsync(Directory.GetFiles(folder, "*.db").Single(), Cancellation);
        string exam = (await store.ExamKeyAsync(address.Split('/')[^1], Cancellation))!;
        Assert.True(await store.KeepExamFilesAsync(exam, [new() { At = SystemClock.Instance.GetCurrentInstant(), Role = role, Name = name, Content = content }], Cancellation));
    }

    private static async Task<string> PageAsync(HttpClient client, string path)
        => WebUtility.HtmlDecode((await client.GetStringAsync(new Uri(path, UriKind.Relative), Cancellation)).Replace("\r\n ", "", StringComparison.Ordinal));
}
