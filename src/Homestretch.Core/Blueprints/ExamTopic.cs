namespace Homestretch.Core.Blueprints;

/// <summary>A topic with its place in the exam.</summary>
/// <param name="Topic">The topic.</param>
/// <param name="Section">The section that holds it.</param>
/// <param name="SectionIndex">Index of the section in <see cref="Exam.Sections"/>.</param>
/// <param name="WeightClass">Its share of the whole exam's items against an equal share.</param>
public sealed record ExamTopic(Topic Topic, Section Section, int SectionIndex, WeightClass WeightClass)
{
    /// <summary>The topic's name.</summary>
    public string Name => Topic.Name;

    /// <summary>The topic's scored items.</summary>
    public int Items => Topic.Items;
}
