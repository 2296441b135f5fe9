using Homestretch.Core.Blueprints;
using Homestretch.Files.Sheets;

namespace Homestretch.Files.Evidences;

/// <summary>Finds the blueprint's topic or subtopic for a name as a person wrote it.</summary>
internal sealed class TopicNames
{
    private readonly Dictionary<string, ExamTopic> topics = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, List<(ExamTopic Topic, Subtopic Subtopic)>> subtopics = new(StringComparer.OrdinalIgnoreCase);
    private readonly List<string> allNames = [];

    public TopicNames(Exam exam)
    {
        foreach (ExamTopic topic in exam.Topics)
        {
            topics.TryAdd(Cell.Tidy(topic.Name), topic);
            allNames.Add(topic.Name);
        }

        foreach (ExamTopic topic in exam.Topics)
        {
            foreach (Subtopic subtopic in topic.Topic.Subtopics)
            {
                string key = Cell.Tidy(subtopic.Name);
                if (!subtopics.TryGetValue(key, out List<(ExamTopic, Subtopic)>? places))
                {
                    subtopics[key] = places = [];
                }

                places.Add((topic, subtopic));
                allNames.Add(subtopic.Name);
            }
        }
    }

    /// <summary>The topic and subtopic that a row names, or null and a problem noted.</summary>
    /// <param name="row">The row.</param>
    /// <param name="topic">Column of the topic.</param>
    /// <param name="subtopic">Column of the subtopic.</param>
    public (ExamTopic Topic, Subtopic? Subtopic)? Find<TColumn>(SheetRow<TColumn> row, TColumn topic, TColumn subtopic)
        where TColumn : struct, Enum
    {
        (ExamTopic Topic, Subtopic? Subtopic)? found = Find(row[topic], row[subtopic], out string problem);
        if (found is null)
        {
            row.Refuse(problem + row.Short);
        }

        return found;
    }

    /// <summary>The topic and subtopic that two tidy cells name, or null and what is wrong.</summary>
    /// <param name="topicCell">A topic, "Topic / Subtopic", or a subtopic that only one topic has.</param>
    /// <param name="subtopicCell">A subtopic of it, or empty.</param>
    public (ExamTopic Topic, Subtopic? Subtopic)? Find(string topicCell, string subtopicCell, out string problem)
    {
        problem = "";
        if (topicCell.Length == 0)
        {
            problem = "column 'topic' is empty; write one of the exam's topics.";
            return null;
        }

        ExamTopic? topic = null;
        Subtopic? subtopic = null;
        if (topics.TryGetValue(topicCell, out ExamTopic? whole))
        {
            topic = whole;
        }
        else if (FindPair(topicCell, out bool topicKnown, out ExamTopic? pairTopic, out Subtopic? pairSubtopic, out string pairProblem))
        {
            topic = pairTopic;
            subtopic = pairSubtopic;
        }
        else if (topicKnown)
        {
            problem = pairProblem;
            return null;
        }
        else if (subtopics.TryGetValue(topicCell, out List<(ExamTopic Topic, Subtopic Subtopic)>? places))
        {
            if (places.Count > 1)
            {
                problem = $"column 'topic': several topics have a subtopic '{Cell.Show(topicCell)}'; write {string.Join(" or ", places.Select(p => $"'{p.Topic.Name} / {p.Subtopic.Name}'"))}.";
                return null;
            }

            (topic, subtopic) = places[0];
        }

        if (topic is null)
        {
            string? near = NearestName.Suggest(topicCell, allNames);
            problem = $"column 'topic': the exam has no topic '{Cell.Show(topicCell)}'." + (near is null
                ? $" Its topics are {string.Join(", ", topics.Values.Select(t => t.Name))}."
                : $" Did you mean '{near}'?");
            return null;
        }

        if (subtopicCell.Length == 0)
        {
            return (topic, subtopic);
        }

        Subtopic? named = SubtopicOf(topic, subtopicCell);
        if (named is null)
        {
            problem = "column 'subtopic': " + NoSubtopic(topic, subtopicCell);
            return null;
        }

        if (subtopic is not null && subtopic != named)
        {
            problem = $"column 'topic' names the subtopic '{subtopic.Name}' and column 'subtopic' names '{named.Name}'; keep one.";
            return null;
        }

        return (topic, named);
    }

    private bool FindPair(string cell, out bool topicKnown, out ExamTopic? topic, out Subtopic? subtopic, out string problem)
    {
        topic = null;
        subtopic = null;
        topicKnown = false;
        problem = "";

        // A name may hold a stroke itself, so every stroke is tried.
        for (int stroke = cell.IndexOf('/'); stroke >= 0; stroke = cell.IndexOf('/', stroke + 1))
        {
            if (!topics.TryGetValue(cell[..stroke].Trim(), out ExamTopic? left))
            {
                continue;
            }

            topicKnown = true;
            string right = cell[(stroke + 1)..].Trim();
            if (SubtopicOf(left, right) is { } found)
            {
                topic = left;
                subtopic = found;
                return true;
            }

            problem = "column 'topic': " + NoSubtopic(left, right);
        }

        return false;
    }

    private static Subtopic? SubtopicOf(ExamTopic topic, string name) =>
        topic.Topic.Subtopics.FirstOrDefault(s => string.Equals(Cell.Tidy(s.Name), name, StringComparison.OrdinalIgnoreCase));

    private static string NoSubtopic(ExamTopic topic, string name)
    {
        if (topic.Topic.Subtopics.IsEmpty)
        {
            return $"the topic '{topic.Name}' has no subtopics; leave '{Cell.Show(name)}' out.";
        }

        string? near = NearestName.Suggest(name, topic.Topic.Subtopics.Select(s => s.Name));
        return $"the topic '{topic.Name}' has no subtopic '{Cell.Show(name)}'." + (near is null
            ? $" Its subtopics are {string.Join(", ", topic.Topic.Subtopics.Select(s => s.Name))}."
            : $" Did you mean '{near}'?");
    }
}
