using System.Collections.Immutable;

using Homestretch.Files.Documents;

namespace Homestretch.Web.Api;

/// <summary>What the next half hour on each topic is worth.</summary>
/// <param name="Worth">In the order of the exam, as in the forecast.</param>
public sealed record WorthList(ImmutableArray<WorthFields> Worth);
