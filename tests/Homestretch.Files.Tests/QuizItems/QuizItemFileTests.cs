using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;

using CsCheck;

using Homestretch.Files.QuizItems;
using Homestretch.Files.Tests.Sheets;

namespace Homestretch.Files.Tests.QuizItems;

/// <summary>Items to practise on. The QTI files under cases/qti are our own, written after the published specifications.</summary>
public partial class QuizItemFileTests
{
    private const string Header = "topic,prompt,option a,option b,option c,correct\n";

    private static string Folder => TestFiles.Cases("qti");

    [Fact]
    public void A_choice_item_of_QTI_2_1_is_taken_over()
    {
        QuizItemSet set = Sound(QuizItemFile.ReadAll([Path.Combine(Folder, "choice-v21.xml")], TestExams.Registrar, "Pests"));
        QuizItem item = Assert.Single(set.Items);
        Assert.Equal(("pest-1", "A trap on the sill", "Preventive conservation", "Pests", false), (item.Id, item.Title, item.Topic, item.Subtopic, item.TakesSeveral));
        Assert.Equal("<p>Look at the card from the trap.</p><p>[Three carpet beetles on a sticky card]</p><p>What do you do <em>first</em>?</p>", item.Prompt.Html);
        Assert.Equal("Look at the card from the trap.\n[Three carpet beetles on a sticky card]\nWhat do you do first?", item.Prompt.Plain);
        Assert.Equal([("A", "<p>Spray the room.</p>", false), ("B", "<p>Look at the objects near the <strong>window</strong>.</p>", true), ("C", "<p>Wait a month.</p>", false)], item.Options.Select(o => (o.Id, o.Text.Html, o.IsCorrect)));
        Assert.Empty(set.Skipped);
        Assert.Equal(
            ["A picture was left out; its description stands in its place: Three carpet beetles on a sticky card", "Feedback that appears after an answer was left out."],
            set.Notes.Select(n => n.Text));
    }

    [Fact]
    public void An_item_of_QTI_2_2_may_have_several_correct_options()
    {
        QuizItemSet set = Sound(QuizItemFile.ReadAll([Path.Combine(Folder, "multiple-v22.xml")], TestExams.Registrar, "title and ethics"));
        QuizItem item = Assert.Single(set.Items);
        Assert.True(item.TakesSeveral);
        Assert.Equal(["deed", "receipt"], item.Options.Where(o => o.IsCorrect).Select(o => o.Id));
        Assert.Equal("<p>Which papers show that the museum owns a gift?</p><ul><li>They name the giver &amp; the object.</li><li>They are signed.</li></ul>", item.Prompt.Html);
        Assert.Equal("Which papers show that the museum owns a gift?\n- They name the giver & the object.\n- They are signed.", item.Prompt.Plain);
        Assert.Equal("Its own scoring was not taken over: right means all correct options and no other.", Assert.Single(set.Notes).Text);
    }

    [Fact]
    public void A_package_of_QTI_3_gives_its_choice_items_and_names_the_rest()
    {
        QuizItemSet set = Sound(QuizItemFile.ParseAll([("items.zip", Package())], TestExams.Registrar));
        Assert.Equal([("loan-insurance-1", "Loans and insurance"), ("marking-1", "Cataloguing")], set.Items.Select(i => (i.Id, i.Topic)));
        Assert.Equal("<p>An outgoing loan is insured <em>nail to nail</em>.<br>When does the cover begin?</p>", set.Items[0].Prompt.Html);
        Assert.Equal("An outgoing loan is insured nail to nail.\nWhen does the cover begin?", set.Items[0].Prompt.Plain);
        Assert.Equal("<p><strong>A glazed jug</strong></p><p>Where does the number go?</p>", set.Items[1].Prompt.Html);
        Assert.Equal(("items.zip/loans-and-insurance/loan.xml", 2), (set.Items[0].File, set.Items[0].Line));
        Assert.Equal(
            [("test-1", "This is a test; which items it puts in which order is not taken over."), ("order-1", "The item is of the kind 'order-interaction'; choice items are read.")],
            set.Skipped.Select(s => (s.Item, s.Text)));
        Assert.Equal("A text for the people who score was left out.", Assert.Single(set.Notes).Text);
    }

    [Fact]
    public void What_a_package_lacks_or_does_not_name_is_said()
    {
        byte[] lacks = Package(files => files.Remove("other/order.xml"));
        Assert.Contains("names 'other/order.xml', which is not in the package", Problem("p.zip", lacks), StringComparison.Ordinal);
        QuizItemSet more = Sound(QuizItemFile.ParseAll([("p.zip", Package(files => files["stray.xml"] = files["other/marking.xml"]))], TestExams.Registrar));
        Assert.Contains(more.Skipped, s => s.Item == "stray.xml" && s.Text == "The package's list does not name this file.");
        Assert.Contains("holds no imsmanifest.xml", Problem("p.zip", Package(files => files.Remove("imsmanifest.xml"))), StringComparison.Ordinal);
        QuizItemSet within = Sound(QuizItemFile.ParseAll([("p.zip", TestWorkbook.Zip(PackageFiles().Select(f => KeyValuePair.Create("export/" + f.Key, f.Value))))], TestExams.Registrar));
        Assert.Equal(2, within.Items.Length);
    }

    [Theory]
    [InlineData("adaptive=\"false\"", "adaptive=\"true\"", "The item is adaptive")]
    [InlineData("imsqti_v2p1\" xmlns", "imsqti_v2p0\" xmlns", "the format 'http://www.imsglobal.org/xsd/imsqti_v2p0'")]
    [InlineData("<itemBody>", "<templateDeclaration identifier=\"T\" cardinality=\"single\"/><itemBody>", "is a template")]
    [InlineData("<value>B</value>", "", "No correct response is declared")]
    [InlineData("<value>B</value>", "<value>D</value>", "The correct response 'D' is none of the options")]
    [InlineData("<value>B</value>", "<value>B</value><value>A</value>", "2 correct responses are declared")]
    [InlineData("identifier=\"C\"", "identifier=\"A\"", "with identifiers of their own")]
    [InlineData("cardinality=\"single\" baseType=\"identifier\"", "cardinality=\"single\" baseType=\"string\"", "declared as single string")]
    [InlineData("responseIdentifier=\"RESPONSE\"", "responseIdentifier=\"OTHER\"", "No response is declared for 'OTHER'")]
    [InlineData("Wait a month.", "<math xmlns=\"http://www.w3.org/1998/Math/MathML\"><mi>x</mi></math>", "holds a formula (MathML)")]
    [InlineData("Wait a month.", "<img src=\"a.png\"/>", "an option without text ('C')")]
    [InlineData("<p>Look at the card from the trap.</p>", "<p><textEntryInteraction responseIdentifier=\"X\"/></p>", "asks for 2 answers")]
    [InlineData("choiceInteraction", "hottextInteraction", "of the kind 'hottext-interaction'")]
    [InlineData("<p>Look at the card from the trap.</p>", "<object data=\"a.mp4\" type=\"video/mp4\"/>", "holds an object")]
    public void What_is_not_supported_is_named_with_the_reason(string old, string now, string reason)
    {
        string xml = File.ReadAllText(Path.Combine(Folder, "choice-v21.xml"));
        Assert.Contains(old, xml, StringComparison.Ordinal);
        QuizItemSet set = Sound(QuizItemFile.ParseAll([("i.xml", Encoding.UTF8.GetBytes(xml.Replace(old, now, StringComparison.Ordinal)))], TestExams.Registrar, "Pests"));
        Assert.Empty(set.Items);
        ItemRemark skipped = Assert.Single(set.Skipped);
        Assert.Equal("pest-1", skipped.Item);
        Assert.Contains(reason, skipped.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void An_item_whose_topic_nothing_tells_is_left_out()
    {
        QuizItemSet set = Sound(QuizItemFile.ParseAll([("choice.xml", File.ReadAllBytes(Path.Combine(Folder, "choice-v21.xml")))], TestExams.Registrar));
        Assert.StartsWith("No topic of the exam is known for it", Assert.Single(set.Skipped).Text, StringComparison.Ordinal);
        QuizItemSet folder = Sound(QuizItemFile.ParseAll([("bank/Storage_materials/choice.xml", File.ReadAllBytes(Path.Combine(Folder, "choice-v21.xml")))], TestExams.Registrar, "Cataloguing"));
        Assert.Equal(("Preventive conservation", "Storage materials"), (folder.Items[0].Topic, folder.Items[0].Subtopic));

        // A package whose folders name no topic may lie in one that does; what its own metadata says of an item counts first.
        byte[] silent = Package(files =>
        {
            files.Remove("loans-and-insurance/loan.xml", out byte[]? loan);
            files["part-one/loan.xml"] = loan!;
            files["imsmanifest.xml"] = Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(files["imsmanifest.xml"]).Replace("loans-and-insurance/", "part-one/", StringComparison.Ordinal));
        });
        Assert.Equal([("marking-1", "Cataloguing")], Sound(QuizItemFile.ParseAll([("p.zip", silent)], TestExams.Registrar)).Items.Select(i => (i.Id, i.Topic)));
        Assert.Equal(
            [("loan-insurance-1", "Preventive conservation"), ("marking-1", "Cataloguing")],
            Sound(QuizItemFile.ParseAll([("Pests/p.zip", silent)], TestExams.Registrar)).Items.Select(i => (i.Id, i.Topic)));
        QuizItemSet twice = Sound(QuizItemFile.ReadAll([Path.Combine(Folder, "choice-v21.xml"), Path.Combine(Folder, "choice-v21.xml")], TestExams.Registrar, "Pests"));
        Assert.Contains("An item of this name stands in", Assert.Single(twice.Skipped).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Attacks_by_XML_are_refused()
    {
        const string Bomb = "<?xml version=\"1.0\"?><!DOCTYPE x [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;\"><!ENTITY f SYSTEM \"file:///etc/passwd\">]><assessmentItem>&b;&f;</assessmentItem>";
        Assert.Contains("document type definition", Problem("i.xml", Encoding.UTF8.GetBytes(Bomb)), StringComparison.Ordinal);
        string deep = string.Concat(Enumerable.Repeat("<a>", 200)) + string.Concat(Enumerable.Repeat("</a>", 200));
        Assert.Contains("more than 100 deep", Problem("i.xml", Encoding.UTF8.GetBytes(deep)), StringComparison.Ordinal);
        Assert.Contains("longer than 4 MB", Problem("i.xml", Encoding.UTF8.GetBytes($"<a>{new string('x', 5_000_000)}</a>")), StringComparison.Ordinal);
        Assert.Contains("not well-formed", Problem("i.xml", "<a><b></a>"u8.ToArray()), StringComparison.Ordinal);
        Assert.Contains("document type definition", Problem("p.zip", Package(files => files["imsmanifest.xml"] = Encoding.UTF8.GetBytes(Bomb))), StringComparison.Ordinal);
        Assert.Contains("unpacks to far more", Problem("p.zip", Package(files => files["big.png"] = new byte[140_000_000])), StringComparison.Ordinal);
    }

    [Fact]
    public void No_markup_but_ours_reaches_a_page()
    {
        string xml = File.ReadAllText(Path.Combine(Folder, "choice-v21.xml")).Replace(
            "What do you do <em>first</em>?",
            "<script>alert(1)</script><a href=\"javascript:alert(1)\" onclick=\"x()\">&lt;img src=x onerror=alert(1)&gt;</a><em style=\"x\" onmouseover=\"y\">now</em>",
            StringComparison.Ordinal);
        QuizItemSet set = Sound(QuizItemFile.ParseAll([("i.xml", Encoding.UTF8.GetBytes(xml))], TestExams.Registrar, "Pests"));
        Assert.EndsWith("<p>&lt;img src=x onerror=alert(1)&gt;<em>now</em></p>", set.Items[0].Prompt.Html, StringComparison.Ordinal);
        Assert.Contains(set.Notes, n => n.Text == "A script was left out.");

        string[] pieces = ["<p>", "</p>", "<ul><li>", "</li></ul>", "<em>", "</em>", "<script>", "</script>", "<br/>", "<table><tr><td>", "</td></tr></table>", "&lt;b&gt;", "&amp;", "<b onclick='x'>", "</b>", "x", " ", "<h1>", "</h1>", "&#34;"];
        Gen<string> markup = Gen.Int[0, pieces.Length - 1].Array[0, 12].Select(chosen => string.Concat(chosen.Select(c => pieces[c])));
        markup.Sample(inside =>
        {
            string changed = File.ReadAllText(Path.Combine(Folder, "choice-v21.xml")).Replace("Look at the card from the trap.", inside, StringComparison.Ordinal);
            ReadResult<QuizItemSet> read = QuizItemFile.ParseAll([("i.xml", Encoding.UTF8.GetBytes(changed))], TestExams.Registrar, "Pests");
            Assert.All(read.Value?.Items ?? [], i => Assert.Matches(OurMarkup(), i.Prompt.Html));
        });
    }

    [Fact]
    public void A_changed_item_or_package_never_throws()
    {
        byte[] xml = File.ReadAllBytes(Path.Combine(Folder, "multiple-v22.xml"));
        byte[] zip = TestWorkbook.Zip(PackageFiles(), CompressionLevel.NoCompression);
        foreach ((string name, byte[] whole) in new[] { ("i.xml", xml), ("p.zip", zip) })
        {
            Gen.Select(Gen.Int[0, whole.Length - 1], Gen.Byte, Gen.Int[0, 3]).Array[1, 4].Sample(
                changes =>
                {
                    byte[] changed = [.. whole];
                    foreach ((int at, byte value, int length) in changes)
                    {
                        changed.AsSpan(at, Math.Min(length + 1, changed.Length - at)).Fill(value);
                    }

                    ReadResult<QuizItemSet> read = QuizItemFile.ParseAll([(name, changed)], TestExams.Registrar, "Pests");
                    Assert.All(read.Problems, p => Assert.DoesNotMatch(ProblemChecks.TypeName(), p.Message));
                },
                iter: 1000);
        }
    }

    [Fact]
    public void A_sheet_of_items_is_read_as_csv_and_as_a_spreadsheet()
    {
        const string Text = "item,topic,prompt,option a,option b,option c,correct,explanation\nP1,Pests,What is frass?,Dust,Insect droppings,\"Paint, old\",b,It shows where they feed.\n,Cataloguing,Which two?,One,Two,Three,\"A, c\",\n";
        QuizItemSet set = Sound(QuizItemFile.ParseAll([("q.csv", Encoding.UTF8.GetBytes(Text))], TestExams.Registrar));
        Assert.Equal(["P1", set.Items[1].Id], set.Items.Select(i => i.Id));
        Assert.Matches("^item-[0-9a-f]{10}$", set.Items[1].Id);
        Assert.Equal(("Preventive conservation", "Pests", "What is frass?", "It shows where they feed."), (set.Items[0].Topic, set.Items[0].Subtopic, set.Items[0].Prompt.Plain, set.Items[0].Explanation!.Plain));
        Assert.Equal([(false, "a"), (true, "b"), (false, "c")], set.Items[0].Options.Select(o => (o.IsCorrect, o.Id)));
        Assert.Equal([true, false, true], set.Items[1].Options.Select(o => o.IsCorrect));
        Assert.Equal((false, true), (set.Items[0].TakesSeveral, set.Items[1].TakesSeveral));

        QuizItemSet sheet = Sound(QuizItemFile.ParseAll([("q.xlsx", new TestWorkbook().Texts("topic|prompt|a|b|correct\nPests|What is frass?|Dust|Droppings|b").Bytes())], TestExams.Registrar));
        Assert.Equal("Droppings", Assert.Single(sheet.Items).Options.Single(o => o.IsCorrect).Text.Plain);
    }

    [Theory]
    [InlineData("Nowhere,Why?,x,y,,a", 2, "no topic 'Nowhere'")]
    [InlineData("Pests,,x,y,,a", 2, "column 'prompt' is empty")]
    [InlineData("Pests,Why?,x,,,a", 2, "column 'option b' is empty; an item has at least two options")]
    [InlineData("Pests,Why?,x,,z,a", 2, "column 'option b' is empty")]
    [InlineData("Pests,Why?,x,x,z,a", 2, "two options say 'x'")]
    [InlineData("Pests,Why?,x,y,,c", 2, "'c' names no option that is there; write the letter of the correct option (a to b)")]
    [InlineData("Pests,Why?,x,y,,y", 2, "'y' names no option")]
    [InlineData("Pests,Why?,x,y,,", 2, "column 'correct' is empty")]
    [InlineData("Pests,Why?,x,y,,a\nPests,Why?,x,y,,a", 3, "the same item stands in line 2 too")]
    public void Every_fault_of_a_sheet_is_named(string rows, int line, string message)
    {
        ReadResult<QuizItemSet> read = QuizItemFile.ParseAll([("q.csv", Encoding.UTF8.GetBytes(Header + rows + "\n"))], TestExams.Registrar);
        Assert.Contains(read.Problems, p => p.Line == line && p.Message.Contains(message, StringComparison.Ordinal));
    }

    [Fact]
    public void The_items_of_the_demo_are_sound()
    {
        QuizItemSet set = Sound(QuizItemFile.ReadAll([TestFiles.Demo("quiz-items.csv")], Homestretch.Files.Exams.ExamFile.Read(TestFiles.Demo("exam.yaml")).Value!));
        Assert.Equal(8, set.Items.Length);
        Assert.Single(set.Items, i => i.TakesSeveral);
    }

    private static Dictionary<string, byte[]> PackageFiles()
    {
        string folder = Path.Combine(Folder, "package");
        return Directory.GetFiles(folder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal)
            .ToDictionary(f => Path.GetRelativePath(folder, f).Replace('\\', '/'), File.ReadAllBytes);
    }

    private static byte[] Package(Action<Dictionary<string, byte[]>>? change = null)
    {
        Dictionary<string, byte[]> files = PackageFiles();
        change?.Invoke(files);
        return TestWorkbook.Zip(files);
    }

    private static string Problem(string name, byte[] bytes) => Assert.Single(QuizItemFile.ParseAll([(name, bytes)], TestExams.Registrar, "Pests").Problems).Message;

    private static QuizItemSet Sound(ReadResult<QuizItemSet> read)
    {
        Assert.True(read.IsOk, string.Join('\n', read.Problems));
        return read.Value;
    }

    [GeneratedRegex("^(?:[^<>]|</?(?:p|em|strong|sub|sup|ul|ol|li)>|<br>)*$")]
    private static partial Regex OurMarkup();
}
