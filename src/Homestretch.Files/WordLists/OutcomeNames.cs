using Homestretch.Core.Words;

namespace Homestretch.Files.WordLists;

/// <summary>How files and documents name the outcomes of a recall.</summary>
public static class OutcomeNames
{
    /// <summary>What is accepted, for messages.</summary>
    public const string Accepted = "knew, partly or not";

    /// <summary>The name of an outcome.</summary>
    public static string Of(RecallOutcome outcome) => outcome switch
    {
        RecallOutcome.Knew => "knew",
        RecallOutcome.Partly => "partly",
        _ => "not",
    };

    /// <summary>Finds an outcome without regard to case.</summary>
    /// <param name="text">The name as a person wrote it.</param>
    public static RecallOutcome? Find(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.Trim().ToLowerInvariant() switch
        {
            "knew" or "known" or "yes" => RecallOutcome.Knew,
            "partly" or "half" => RecallOutcome.Partly,
            "not" or "not known" or "did not know" or "no" => RecallOutcome.DidNotKnow,
            _ => null,
        };
    }
}
