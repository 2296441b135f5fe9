using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Web.Pages;

namespace Homestretch.Web.Exams;

/// <summary>What two versions of an exam differ in, in words.</summary>
public static class ExamDifference
{
    private const int MostInASentence = 3;

    /// <summary>Every difference that matters for a plan or a forecast, each as a phrase; empty where there is none.</summary>
    public static ImmutableArray<string> Of(Exam before, Exam after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        List<string> found = [];
        Dictionary<string, ExamTopic> old = before.Topics.ToDictionary(t => t.Name, StringComparer.OrdinalIgnoreCase);
        Dictionary<string, ExamTopic> now = after.Topics.ToDictionary(t => t.Name, StringComparer.OrdinalIgnoreCase);
        foreach (ExamTopic topic in after.Topics)
        {
            if (!old.TryGetValue(topic.Name, out ExamTopic? was))
            {
                found.Add(string.Create(CultureInfo.InvariantCulture, $"{topic.Name} is new, with {topic.Items} items"));
                continue;
            }

            if (was.Items != topic.Items)
            {
                found.Add(string.Create(CultureInfo.InvariantCulture, $"{topic.Name} has {topic.Items} items, {was.Items} before"));
            }

            if (!was.Topic.Subtopics.Select(s => (s.Name.ToUpperInvariant(), s.Items)).SequenceEqual(topic.Topic.Subtopics.Select(s => (s.Name.ToUpperInvariant(), s.Items))))
            {
                found.Add($"the subtopics of {topic.Name} differ");
            }
        }

        found.AddRange(before.Topics.Where(t => !now.ContainsKey(t.Name)).Select(t => $"{t.Name} is no longer there"));
        Note(found, "it takes", BlueprintText.Rule(before), BlueprintText.Rule(after));
        foreach (Section section in after.Sections)
        {
            if (before.Sections.FirstOrDefault(s => string.Equals(s.Name, section.Name, StringComparison.OrdinalIgnoreCase)) is { } was)
            {
                NoteFacts(found, section.Name, BlueprintText.Facts(was).Split(BlueprintText.Between), BlueprintText.Facts(section).Split(BlueprintText.Between));
            }
            else
            {
                found.Add($"the section {section.Name} is new");
            }
        }

        Note(found, "retakes:", before.Retake is { } b ? BlueprintText.Retake(b) : "no rule", after.Retake is { } a ? BlueprintText.Retake(a) : "no rule");
        if (before.Bands != after.Bands)
        {
            found.Add("weak and strong begin elsewhere");
        }

        return [.. found];
    }

    /// <summary>The reason for a new plan: "The blueprint changed: Pests is new, with 5 items."</summary>
    public static string Reason(Exam before, Exam after)
    {
        ImmutableArray<string> all = Of(before, after);
        string more = all.Length > MostInASentence ? string.Create(CultureInfo.InvariantCulture, $"; and {all.Length - MostInASentence} more") : "";
        return all.IsEmpty ? "The blueprint was entered anew; nothing in it that matters for the plan changed." : $"The blueprint changed: {string.Join("; ", all.Take(MostInASentence))}{more}.";
    }

    // Only what has changed of a section: the rest would hide it.
    private static void NoteFacts(List<string> found, string section, string[] before, string[] after)
    {
        string was = string.Join(", ", before.Except(after));
        string now = string.Join(", ", after.Except(before));
        if (now.Length > 0 && was.Length > 0)
        {
            found.Add($"{section}: {now}; before: {was}");
        }
        else if (now.Length + was.Length > 0)
        {
            found.Add(now.Length > 0 ? $"{section}: {now} now" : $"{section}: no longer {was}");
        }
    }

    private static void Note(List<string> found, string what, string before, string after)
    {
        if (before != after)
        {
            found.Add($"{what} {after}, before: {before}");
        }
    }
}
