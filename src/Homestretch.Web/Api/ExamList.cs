using System.Collections.Immutable;

namespace Homestretch.Web.Api;

/// <summary>The exams that are kept.</summary>
/// <param name="Exams">By name.</param>
public sealed record ExamList(ImmutableArray<ExamLine> Exams);
