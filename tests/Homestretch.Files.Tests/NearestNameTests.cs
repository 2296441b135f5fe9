namespace Homestretch.Files.Tests;

public class NearestNameTests
{
    private static readonly string[] Topics = ["Cataloguing", "Preventive conservation", "Handling and packing", "Loans and insurance", "Title and ethics"];

    [Theory]
    [InlineData("Catalouging", "Cataloguing")]
    [InlineData("cataloging", "Cataloguing")]
    [InlineData("  LOANS   and insurance ", "Loans and insurance")]
    [InlineData("loans_and_insurance", "Loans and insurance")]
    [InlineData("Loans & insurance", "Loans and insurance")]
    [InlineData("Packing", "Handling and packing")]
    [InlineData("Title and ethics (new)", "Title and ethics")]
    public void Suggests_the_name_that_was_meant(string given, string expected) =>
        Assert.Equal(expected, NearestName.Suggest(given, Topics));

    [Theory]
    [InlineData("")]
    [InlineData("   ")]
    [InlineData("xyz")]
    [InlineData("Astronomy")]
    public void Suggests_nothing_when_nothing_is_near(string given) => Assert.Null(NearestName.Suggest(given, Topics));

    [Fact]
    public void Suggests_nothing_for_an_endless_name() => Assert.Null(NearestName.Suggest(new string('a', 100_000), Topics));

    [Fact]
    public void Suggests_nothing_when_nothing_is_known() => Assert.Null(NearestName.Suggest("Cataloguing", []));

    [Fact]
    public void A_near_spelling_goes_before_a_containing_name() =>
        Assert.Equal("minutes", NearestName.Suggest("minute", ["minute-hand-of-the-clock", "minutes"]));
}
