using Homestretch.Store;

namespace Homestretch.Web.Candidates;

/// <summary>A block that was to be or is to come, and what became of it.</summary>
/// <param name="Block">The block.</param>
/// <param name="Row">What was recorded of it; null where nothing was.</param>
public sealed record PlannedBlock(KeptBlock Block, StudyRow? Row);
