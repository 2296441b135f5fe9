using Homestretch.Core.Rooms;
using Homestretch.Store;

namespace Homestretch.Web.Listing;

/// <summary>A line of the coach's list.</summary>
/// <param name="Case">The case.</param>
/// <param name="State">How it stands today.</param>
public sealed record CaseLine(ListedCase Case, CandidateState State);
