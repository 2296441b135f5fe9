namespace Homestretch.Files.Documents;

/// <summary>How far the person gets in a section in time.</summary>
/// <param name="Section">The section.</param>
/// <param name="Items">Its items, scored and unscored.</param>
/// <param name="Minutes">Its time limit.</param>
/// <param name="ExpectedReached">Items expected to be answered in time.</param>
/// <param name="FinishChance">Chance of answering its last item in time, 0 to 1.</param>
public sealed record SectionPaceFields(string Section, int Items, int Minutes, double ExpectedReached, double FinishChance);
