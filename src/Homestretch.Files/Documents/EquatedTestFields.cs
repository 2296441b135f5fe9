namespace Homestretch.Files.Documents;

/// <summary>One of two tests that are equated.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Items">Its items.</param>
/// <param name="Mean">Mean score of the people who took both.</param>
public sealed record EquatedTestFields(string Name, int Items, double Mean);
