using System.Collections.Immutable;

using Homestretch.Adaptive;

namespace Homestretch.Core.Tests.AdaptiveTesting;

/// <summary>The study of docs/measurement.md on few people and a small bank; bench/adaptive/run has the large one.</summary>
public class AdaptiveStudyTests
{
    [Fact]
    public void Choosing_items_finds_out_the_pass_chance_with_fewer_of_them()
    {
        ImmutableArray<StudyResult> results = AdaptiveStudy.Run(
            80, 80, 12, [Design.RandomForm, Design.Adaptive], 3, TestContext.Current.CancellationToken);
        (StudyResult form, StudyResult adaptive) = (results[0], results[1]);
        Assert.Equal(form.SquaredError[0], adaptive.SquaredError[0], 1e-4);
        Assert.True(form.SquaredError[12] < form.SquaredError[0]);

        // In the large study 12 chosen items leave about half of the squared error that 12 items of a random form leave.
        Assert.True(adaptive.SquaredError[12] < 0.8 * form.SquaredError[12], $"{adaptive.SquaredError[12]} against {form.SquaredError[12]}");
        Assert.InRange(form.ItemsToMatch(form, 12)!.Value, 1, 12);
        Assert.True(adaptive.ItemsToMatch(form, 12) < 9);
        Assert.InRange(adaptive.ItemsAtStop, 8, 12);
    }
}
