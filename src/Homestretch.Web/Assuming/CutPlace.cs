using System.Collections.Immutable;

using Homestretch.Core.Blueprints;

namespace Homestretch.Web.Assuming;

/// <summary>A place in an exam that holds a cut score which decides about passing.</summary>
/// <param name="Section">Index of the section; null for the total.</param>
/// <param name="Name">Name of the section, or "Total".</param>
/// <param name="Items">The scored items it is for.</param>
/// <param name="Cut">The cut score there.</param>
public sealed record CutPlace(int? Section, string Name, int Items, CutScore Cut)
{
    /// <summary>Name of the form field: <c>cut</c> for the total, <c>cut-1</c> for the first section.</summary>
    public string Field => Section is { } index ? $"cut-{index + 1}" : "cut";

    /// <summary>Every cut score that decides under the exam's rule, the total last.</summary>
    public static ImmutableArray<CutPlace> In(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ImmutableArray<CutPlace>.Builder places = ImmutableArray.CreateBuilder<CutPlace>();
        if (exam.Rule != OverallRule.Total)
        {
            for (int i = 0; i < exam.Sections.Length; i++)
            {
                if (exam.Sections[i].Cut is { } cut)
                {
                    places.Add(new(i, exam.Sections[i].Name, exam.Sections[i].ScoredItems, cut));
                }
            }
        }

        if (exam.Rule != OverallRule.EverySection && exam.TotalCut is { } total)
        {
            places.Add(new(null, "Total", exam.ScoredItems, total));
        }

        return places.ToImmutable();
    }

    /// <summary>The exam with another cut score at this place.</summary>
    public Exam Change(Exam exam, CutScore cut)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ImmutableArray<Section> sections = exam.Sections;
        if (Section is { } index)
        {
            Section old = sections[index];
            sections = sections.SetItem(index, new Section(old.Name, old.ScoredItems, old.UnscoredItems, old.Minutes, old.Options, cut, old.Topics));
        }

        return new Exam(exam.Name, exam.Edition, exam.Source, sections, exam.Rule, Section is null ? cut : exam.TotalCut, exam.Retake, exam.Bands);
    }
}
