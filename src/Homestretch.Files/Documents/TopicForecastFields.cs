namespace Homestretch.Files.Documents;

/// <summary>One topic's part in the forecast.</summary>
/// <param name="Name">The topic.</param>
/// <param name="Section">Its section.</param>
/// <param name="Items">Its scored items.</param>
/// <param name="ExpectedCorrect">Expected correct answers.</param>
/// <param name="NeededCorrect">Correct answers on it that would reach the cut score if every topic moved by the same hours of study.</param>
public sealed record TopicForecastFields(string Name, string Section, int Items, double ExpectedCorrect, int NeededCorrect);
