using System.Xml.Linq;

using Homestretch.Files.Pictures;

namespace Homestretch.Files.Tests.Pictures;

public class WorthBarsTests
{
    [Fact]
    public void Bars_are_as_long_as_the_gains_and_the_greatest_comes_first()
    {
        foreach (CandidateReport report in SampleReports.All)
        {
            XElement table = Drawn.Parse(WorthBars.Html(report));
            string[] names = [.. table.Descendants("tbody").Single().Descendants("th").Select(h => h.Value)];
            double[] bars = [.. table.WithClass("hs-gain-pass").Select(c => c.WithClass("hs-gain-fill").Single().Number("width"))];
            double most = report.Worth.Max(w => w.PassGain);

            Assert.Equal(report.Worth.OrderByDescending(w => w.PassGain).Select(w => w.Topic.Name), names);
            Assert.All(bars.Zip(report.Worth.OrderByDescending(w => w.PassGain)), b => Assert.Equal(Math.Max(0, b.Second.PassGain) / most * 100, b.First, 0.006));
        }
    }
}
