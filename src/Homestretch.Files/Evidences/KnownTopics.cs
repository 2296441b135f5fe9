using Homestretch.Core.Blueprints;
using Homestretch.Files.Sheets;

namespace Homestretch.Files.Evidences;

/// <summary>Tells whether an exam has a topic of a name, by the rules by which names in evidence are read.</summary>
/// <param name="exam">The exam.</param>
public sealed class KnownTopics(Exam exam)
{
    private readonly TopicNames _names = new(exam);

    /// <summary>Whether the exam has the topic, and the subtopic where one is named.</summary>
    /// <param name="topic">A topic, "Topic / Subtopic", or a subtopic that only one topic has.</param>
    /// <param name="subtopic">A subtopic of it, or empty.</param>
    public bool Has(string topic, string subtopic) => _names.Find(Cell.Tidy(topic), Cell.Tidy(subtopic), out _) is not null;
}
