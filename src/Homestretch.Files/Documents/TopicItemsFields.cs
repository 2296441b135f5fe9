namespace Homestretch.Files.Documents;

/// <summary>How many items to practise on a topic has.</summary>
/// <param name="Topic">Topic of the exam.</param>
/// <param name="Items">Items.</param>
public sealed record TopicItemsFields(string Topic, int Items);
