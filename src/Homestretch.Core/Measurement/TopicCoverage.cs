using Homestretch.Core.Blueprints;

namespace Homestretch.Core.Measurement;

/// <summary>A test's items on one topic against the blueprint.</summary>
/// <param name="Topic">The topic.</param>
/// <param name="Items">Items on the test.</param>
/// <param name="Expected">Items if the test were shared out like the exam.</param>
/// <param name="HalfWidth">How far off, either way, a share correct of 60 % on so many items may be (half the 90 % interval of Wilson); refused without items.</param>
/// <param name="Verdict">The comparison.</param>
/// <param name="Remark">The finding as a sentence; empty where the coverage is fair.</param>
public sealed record TopicCoverage(ExamTopic Topic, int Items, int Expected, Statistic HalfWidth, CoverageVerdict Verdict, string Remark);
