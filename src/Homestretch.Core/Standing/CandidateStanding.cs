using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;

using NodaTime;

namespace Homestretch.Core.Standing;

/// <summary>Where one person stands on one exam.</summary>
/// <param name="Exam">The exam.</param>
/// <param name="AsOf">The day the standing is for; evidence counts less the older it is on that day.</param>
/// <param name="EvidenceItems">Items in all attempts that speak of ability.</param>
/// <param name="Topics">In the order of <see cref="Exam.Topics"/>.</param>
/// <param name="Sections">In the order of <see cref="Exam.Sections"/>.</param>
/// <param name="Posterior">The joint posterior that forecast and plan build on.</param>
public sealed record CandidateStanding(
    Exam Exam,
    LocalDate AsOf,
    int EvidenceItems,
    ImmutableArray<TopicStanding> Topics,
    ImmutableArray<SectionStanding> Sections,
    AbilityPosterior Posterior)
{
    /// <summary>The study the person has done up to <see cref="AsOf"/>; the posterior's rates of learning go with it.</summary>
    public StudyHistory Study { get; init; } = StudyHistory.None;

    /// <summary>How the tests were taken: answers that were left out, and the person's pace.</summary>
    public TestTaking Taking { get; init; } = TestTaking.None;

    /// <summary>What the tests taken after study say of the person's rate of learning; null where no study is known.</summary>
    public RateStanding? Rate { get; init; }

    /// <summary>Answers that counted with their own item's curve, out of an item bank; 0 where no bank was given.</summary>
    public int CalibratedItems { get; init; }
}
