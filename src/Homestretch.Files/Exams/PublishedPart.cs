using Homestretch.Core.Blueprints;

namespace Homestretch.Files.Exams;

/// <summary>A topic or subtopic as the file gives it, before items are shared out.</summary>
/// <param name="Name">Its name; null where it could not be read.</param>
/// <param name="Place">Its place for messages, such as "topic 'Cataloguing'".</param>
/// <param name="Weight">Its weight; null where none is given or it could not be read.</param>
/// <param name="HasWeight">Whether the file gives a weight, readable or not.</param>
/// <param name="WeightLine">Line of the weight, or of the part.</param>
/// <param name="Line">Line of the part.</param>
/// <param name="Subtopics">Its parts.</param>
/// <param name="SubtopicsLine">Line of the key that lists them.</param>
internal sealed record PublishedPart(
    string? Name,
    string Place,
    Weight? Weight,
    bool HasWeight,
    int WeightLine,
    int Line,
    IReadOnlyList<PublishedPart> Subtopics,
    int SubtopicsLine);
