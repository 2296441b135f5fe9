using System.Text;

using Homestretch.Core.Standing;
using Homestretch.Files.ItemBanks;

namespace Homestretch.Files.Tests.ItemBanks;

public class ItemBankFileTests
{
    private const string Good = """
        topic,item,model,discrimination,difficulty,guessing,discrimination-se,difficulty-se,guessing-se,test
        Cataloguing,C-01,2PL,1.24,-0.31,,0.12,0.08,,
        Pests,P-07,3PL,0.93,0.42,0.21,0.2,0.15,0.05,
        "Title and ethics","T, 3",rasch,,1.7,,,0.11,,"Autumn, 1"
        """;

    [Fact]
    public void A_good_file_is_read_whole()
    {
        ItemBank bank = Read(Good);
        Assert.Equal(3, bank.Items.Length);
        Assert.Equal(new BankItem("Cataloguing", "C-01", ItemModel.TwoParameter, new ItemCurve(1.24, -0.31, 0), 0.12, 0.08), bank.Find("Cataloguing", "C-01", "any test"));

        // A subtopic's name stands for its topic, as in evidence files.
        Assert.Equal(new ItemCurve(0.93, 0.42, 0.21), bank.Find("Preventive conservation", "P-07", null)!.Curve);
        Assert.Equal(new ItemCurve(1, 1.7, 0), bank.Find("Title and ethics", "T, 3", "autumn, 1")!.Curve);
        Assert.Null(bank.Find("Cataloguing", "P-07", null));
        Assert.Null(bank.Find("Title and ethics", "T, 3", "autumn 2"));
    }

    [Fact]
    public void What_is_written_is_read_back()
    {
        ItemBank bank = Read(Good);
        Assert.Equal(bank.Items, Read(ItemBankFile.Write(bank)).Items);
    }

    [Fact]
    public void Columns_may_come_in_any_order_with_semicolons_and_decimal_commas()
    {
        ItemBank bank = Read("Difficulty;Item;TOPIC;model;discrimination\r\n-0,5;a;cataloguing;2pl;1,2\r\n");
        Assert.Equal(new ItemCurve(1.2, -0.5, 0), bank.Find("Cataloguing", "a", null)!.Curve);
    }

    [Fact]
    public void Two_tests_may_number_their_items_alike()
    {
        ItemBank bank = Read("topic,item,model,difficulty,test\nCataloguing,1,rasch,0,spring\nCataloguing,1,rasch,1,autumn\n");
        Assert.Equal(1, bank.Find("Cataloguing", "1", "Autumn")!.Curve.Difficulty);
    }

    [Theory]
    [InlineData("", 1, "The file is empty")]
    [InlineData("topic,item,model,difficulty\n", 1, "no rows")]
    [InlineData("topic,item,model\nCataloguing,a,rasch", 1, "The column 'difficulty' is missing")]
    [InlineData("topic,item,model,difficulty,dificulty-se\nCataloguing,a,rasch,0,1", 1, "Did you mean 'difficulty-se'?")]
    [InlineData("topic,item,model,difficulty,item\nCataloguing,a,rasch,0,1", 1, "The column 'item' is there twice")]
    [InlineData("topic,item,model,difficulty\nCatalogueing,a,rasch,0", 2, "Cataloguing")]
    [InlineData("topic,item,model,difficulty\nCataloguing,,rasch,0", 2, "column 'item' is empty")]
    [InlineData("topic,item,model,difficulty\nCataloguing,a,,0", 2, "write rasch, 2PL or 3PL")]
    [InlineData("topic,item,model,difficulty\nCataloguing,a,4PL,0", 2, "'4PL' is not a model")]
    [InlineData("topic,item,model,difficulty\nCataloguing,a,rasch,hard", 2, "'hard' is not a number; write a number from -50 to 50")]
    [InlineData("topic,item,model,difficulty\nCataloguing,a,rasch,NaN", 2, "'NaN' is not a number")]
    [InlineData("topic,item,model,difficulty\nCataloguing,a,rasch,1e999", 2, "is not a number")]
    [InlineData("topic,item,model,difficulty\nCataloguing,a,rasch,51", 2, "51 is out of range")]
    [InlineData("topic,item,model,difficulty\nCataloguing,a,rasch,", 2, "column 'difficulty' is empty")]
    [InlineData("topic,item,model,difficulty\nCataloguing,a,2PL,0", 2, "column 'discrimination' is empty; for the model 2PL write a number above 0 and up to 20")]
    [InlineData("topic,item,model,difficulty,discrimination\nCataloguing,a,2PL,0,-0.4", 2, "column 'discrimination': -0.4 is out of range")]
    [InlineData("topic,item,model,difficulty,discrimination\nCataloguing,a,2PL,0,0", 2, "above 0")]
    [InlineData("topic,item,model,difficulty,discrimination\nCataloguing,a,rasch,0,1.2", 2, "in which every slope is 1")]
    [InlineData("topic,item,model,difficulty,discrimination,guessing\nCataloguing,a,3PL,0,1,1", 2, "column 'guessing': 1 is out of range")]
    [InlineData("topic,item,model,difficulty,discrimination,guessing\nCataloguing,a,3PL,0,1,", 2, "column 'guessing' is empty")]
    [InlineData("topic,item,model,difficulty,discrimination,guessing\nCataloguing,a,2PL,0,1,0.2", 2, "does not go with the model 2PL")]
    [InlineData("topic,item,model,difficulty,difficulty-se\nCataloguing,a,rasch,0,0", 2, "column 'difficulty-se'")]
    [InlineData("topic,item,model,difficulty\nCataloguing,a,rasch,0\nCataloguing,a,rasch,1", 3, "stands in line 2 too")]
    [InlineData("topic,item,model,difficulty\nCataloguing,a,rasch,0,5", 2, "'5' has no column")]
    [InlineData("topic,item,model,difficulty\nCataloguing,\"a,rasch,0", 2, "quote mark")]
    public void Every_fault_is_named_with_its_line_and_what_would_do(string text, int line, string message)
    {
        ReadResult<ItemBank> result = ItemBankFile.Parse("bank.csv", Encoding.UTF8.GetBytes(text), TestExams.Registrar);
        Assert.False(result.IsOk);
        Assert.Contains(result.Problems, p => p.Line == line && p.Message.Contains(message, StringComparison.Ordinal));
    }

    [Fact]
    public void All_faults_are_named_at_once()
    {
        const string Text = "topic,item,model,difficulty\nNowhere at all,,rasch,x\nCataloguing,b,5PL,0\nCataloguing,c,rasch,99\n";
        ReadResult<ItemBank> result = ItemBankFile.Parse("bank.csv", Encoding.UTF8.GetBytes(Text), TestExams.Registrar);
        Assert.Equal([2, 2, 2, 3, 4], result.Problems.Select(p => p.Line));
    }

    [Fact]
    public void A_missing_file_is_named()
        => Assert.Contains("no such file", ItemBankFile.Read("nowhere/bank.csv", TestExams.Registrar).Problems[0].Message, StringComparison.Ordinal);

    private static ItemBank Read(string text)
    {
        ReadResult<ItemBank> result = ItemBankFile.Parse("bank.csv", Encoding.UTF8.GetBytes(text), TestExams.Registrar);
        Assert.True(result.IsOk, string.Join('\n', result.Problems));
        return result.Value;
    }
}
