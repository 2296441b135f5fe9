namespace Homestretch.Files.Documents;

/// <summary>Words that are expected to be known on exam day.</summary>
/// <param name="Alone">With no further recall.</param>
/// <param name="AfterToday">With today's recalls and none after.</param>
/// <param name="Planned">With today's recalls and all that are worth their time later.</param>
public sealed record ExpectedWordsFields(double Alone, double AfterToday, double Planned);
