using System.Collections.Immutable;

namespace Homestretch.Web.Api;

/// <summary>An official result, as the exam's owner reports it.</summary>
/// <param name="Date">The day on which the exam was sat, ISO 8601, from two years ago to today.</param>
/// <param name="Passed">Whether it was passed, as the exam's owner says.</param>
/// <param name="Score">The score as the report gives it, such as <c>78 of 110</c>, at most 40 characters; left out where it gives none.</param>
/// <param name="Topics">What the report says of topics, each once; these figures count like a test. Left out where it says nothing.</param>
public sealed record NewResult(string Date, bool Passed, string? Score = null, ImmutableArray<TopicResult>? Topics = null);
