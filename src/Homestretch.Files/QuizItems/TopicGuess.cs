using Homestretch.Core.Blueprints;

namespace Homestretch.Files.QuizItems;

/// <summary>Finds the topic of an item that does not say its topic in our words: from what its package says of it, from the folder it lies in, or as the person says.</summary>
internal sealed class TopicGuess
{
    private readonly Dictionary<string, (string Topic, string? Subtopic)?> names = new(StringComparer.Ordinal);
    private readonly (string Topic, string? Subtopic)? otherwise;

    /// <param name="exam">The exam.</param>
    /// <param name="otherwise">Topic of items of which nothing else tells it, or null.</param>
    public TopicGuess(Exam exam, (string Topic, string? Subtopic)? otherwise)
    {
        this.otherwise = otherwise;
        foreach (ExamTopic topic in exam.Topics)
        {
            names[Letters(topic.Name)] = (topic.Name, null);
        }

        foreach (ExamTopic topic in exam.Topics)
        {
            foreach (Subtopic part in topic.Topic.Subtopics)
            {
                string key = Letters(part.Name);

                // A name that several topics share tells nothing.
                names[key] = names.TryGetValue(key, out (string Topic, string? Subtopic)? known) ? known is { Subtopic: null } ? known : null : (topic.Name, part.Name);
            }
        }
    }

    private TopicGuess(TopicGuess of, (string Topic, string? Subtopic)? otherwise)
    {
        names = of.names;
        this.otherwise = otherwise;
    }

    /// <summary>The same for what is packed in a file: where nothing in the package tells a topic, the file's own folder may.</summary>
    public TopicGuess Within(string file) => new(this, Find([], file));

    /// <summary>The topic, or null.</summary>
    /// <param name="said">What the package says of the item: keywords and classifications. Counts where it names one topic and no second.</param>
    /// <param name="path">The item's path; its innermost folder that names a topic counts next.</param>
    public (string Topic, string? Subtopic)? Find(IEnumerable<string> said, string path)
    {
        (string Topic, string? Subtopic)[] named = [.. said.Select(Named).OfType<(string Topic, string? Subtopic)>().Distinct()];
        if (named.Select(n => n.Topic).Distinct().Count() == 1)
        {
            return named.Length == 1 ? named[0] : named.Count(n => n.Subtopic is not null) == 1 ? named.First(n => n.Subtopic is not null) : (named[0].Topic, null);
        }

        string[] folders = path.Split('/', '\\')[..^1];
        return folders.Reverse().Select(Named).FirstOrDefault(n => n is not null) ?? otherwise;
    }

    private (string Topic, string? Subtopic)? Named(string name) => names.GetValueOrDefault(Letters(name));

    // Folders write "loans-and-insurance" or "Loans_and_insurance".
    private static string Letters(string name) => string.Concat(name.Where(char.IsLetterOrDigit)).ToLowerInvariant();
}
