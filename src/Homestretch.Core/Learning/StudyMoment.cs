using Homestretch.Core.Evidence;

namespace Homestretch.Core.Learning;

/// <summary>Study of one topic on one day.</summary>
/// <param name="Day">Running number of the day; only differences count.</param>
/// <param name="Hours">Hours, above zero.</param>
/// <param name="Kind">How.</param>
public readonly record struct StudyMoment(int Day, double Hours, StudyKind Kind);
