using System.Xml.Linq;

using Homestretch.Files.Pictures;

namespace Homestretch.Files.Tests.Pictures;

public class PassChanceTests
{
    [Theory]
    [InlineData(0.38, 0.62, 4, 2)]
    [InlineData(0.38, null, 4, 0)]
    [InlineData(0.62, 0.38, 6, 0)]
    [InlineData(0.001, 0.999, 0, 10)]
    public void Marks_are_filled_for_now_and_hatched_for_what_the_plan_adds(double now, double? after, int filled, int hatched)
    {
        XElement picture = Drawn.Parse(PassChance.Svg(now, after, "x"));

        Assert.Equal(10, picture.WithClass("hs-ten").Count());
        Assert.Equal(filled, picture.WithClass("hs-ten-now").Count());
        Assert.Equal(hatched, picture.WithClass("hs-ten-added").Count());
        Assert.All(picture.WithClass("hs-ten-added"), c => Assert.Single(c.Parent!.WithClass("hs-hatch")));
    }

    [Fact]
    public void Sentences()
    {
        Assert.Equal("About 7 of 10 people in your position pass.", PassChance.Sentence(0.71, null));
        Assert.Equal("About 4 of 10 people in your position pass as things stand; with this plan, about 6 of 10.", PassChance.Sentence(0.38, 0.62));
        Assert.Equal("About 7 of 10 people in your position pass, with this plan or without it.", PassChance.Sentence(0.71, 0.72));
        Assert.Equal("About 6 of 100 people in your position pass as things stand; with this plan, about 31 of 100.", PassChance.Sentence(0.06, 0.31));
        Assert.Equal("Fewer than 1 of 100 people in your position pass.", PassChance.Sentence(0, null));
    }

    [Fact]
    public void A_plan_without_blocks_promises_nothing_after_it()
    {
        string markup = PassChance.Html(SampleReports.NoFreeTime);
        Assert.DoesNotContain("after the plan", markup, StringComparison.Ordinal);
        Assert.DoesNotContain("with this plan", markup, StringComparison.Ordinal);
    }
}
