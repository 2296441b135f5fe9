using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Files.Pictures;

namespace Homestretch.Web.Pages;

/// <summary>An exam's rules in words.</summary>
public static class BlueprintText
{
    /// <summary>What stands between two facts.</summary>
    public const string Between = " · ";

    /// <summary>What it takes to pass.</summary>
    public static string Rule(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return exam.Rule switch
        {
            OverallRule.EverySection when exam.Sections.Length == 1 => Cut(exam.Sections[0].Cut!, exam.Sections[0].ScoredItems),
            OverallRule.EverySection => "every section must reach its own cut score",
            OverallRule.Total => $"all sections together: {Cut(exam.TotalCut!, exam.ScoredItems)}",
            _ => $"all sections together: {Cut(exam.TotalCut!, exam.ScoredItems)}; and every section its own minimum",
        };
    }

    /// <summary>A cut score: "65 % of items, that is 49 of 75".</summary>
    public static string Cut(CutScore cut, int items)
    {
        ArgumentNullException.ThrowIfNull(cut);
        int needed = cut.RequiredCorrect(items);
        string count = string.Create(CultureInfo.InvariantCulture, $"{needed} of {items}");
        return cut switch
        {
            CorrectCut => $"{count} correct",
            PercentCut percent => string.Create(CultureInfo.InvariantCulture, $"{percent.Percent:0.##} % of the items, that is {count}"),
            ScaledLineCut line => string.Create(CultureInfo.InvariantCulture, $"a scaled score of {line.AtLeast:0.##}, that is {count} correct"),
            ScaledTableCut table => string.Create(CultureInfo.InvariantCulture, $"a scaled score of {table.AtLeast:0.##}, that is {count} correct"),
            _ => count,
        };
    }

    /// <summary>When a retake is allowed.</summary>
    public static string Retake(RetakeRule rule)
    {
        ArgumentNullException.ThrowIfNull(rule);
        string wait = rule.WaitingDays == 0 ? "no waiting time" : $"after {Figures.Plural(rule.WaitingDays, "day")}";
        return rule.AttemptsPerYear is { } most ? $"{wait}, at most {Figures.Plural(most, "attempt")} in twelve months" : wait;
    }

    /// <summary>Where the figures were published.</summary>
    public static string Source(FigureSource source)
    {
        ArgumentNullException.ThrowIfNull(source);
        return $"{source.Title}, {Dates.FullDay(source.Date)}{(source.Where is { } where ? ", " + where : "")}";
    }

    /// <summary>A section's items, time and cut score.</summary>
    public static string Facts(Section section)
    {
        ArgumentNullException.ThrowIfNull(section);
        List<string> facts = [$"{section.ScoredItems} scored items"];
        if (section.UnscoredItems > 0)
        {
            facts.Add($"{section.UnscoredItems} unscored");
        }

        if (section.Minutes is { } minutes)
        {
            facts.Add(Figures.Duration(minutes));
        }

        facts.Add(section.Options == 0 ? "no options to choose from" : $"{section.Options} options an item");
        if (section.Cut is { } cut)
        {
            facts.Add("cut score " + Cut(cut, section.ScoredItems));
        }

        return string.Join(Between, facts);
    }

    /// <summary>A published weight: "12 items", "30 %", "35 to 40 %".</summary>
    public static string Weight(Weight weight) => weight switch
    {
        { Unit: WeightUnit.Items } => Figures.Plural((int)weight.Low, "item"),
        { } when weight.Low == weight.High => string.Create(CultureInfo.InvariantCulture, $"{weight.Low:0.##} %"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{weight.Low:0.##} to {weight.High:0.##} %"),
    };
}
