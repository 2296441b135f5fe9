using Homestretch.Core.Planning.Calendar;

namespace Homestretch.Core.Planning;

/// <summary>A slot with the topic it is for.</summary>
/// <param name="Slot">When.</param>
/// <param name="Topic">Index of the topic in the exam.</param>
/// <param name="Purpose">What for.</param>
internal readonly record struct PlacedPiece(Slot Slot, int Topic, BlockPurpose Purpose);
