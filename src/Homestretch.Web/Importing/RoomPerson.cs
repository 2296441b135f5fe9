using System.Collections.Immutable;

using Homestretch.Files;
using Homestretch.Files.Candidates;

namespace Homestretch.Web.Importing;

/// <summary>One row of the preview.</summary>
/// <param name="Row">The row of the sheet.</param>
/// <param name="Candidate">The person as the evidence spells the name, or as the sheet does where the evidence names no such person.</param>
/// <param name="Attempts">Tests found in the evidence.</param>
/// <param name="Items">Items those tests rest on.</param>
/// <param name="Here">Whether the person has a case for this exam already.</param>
/// <param name="Problems">Everything that keeps the row from being imported; being here already is not among them.</param>
public sealed record RoomPerson(CandidateRow Row, string Candidate, int Attempts, int Items, bool Here, ImmutableArray<FileProblem> Problems)
{
    /// <summary>Whether the row can be imported.</summary>
    public bool Ready => !Here && Problems.IsEmpty;

    /// <summary>What is said of a person who is here already; null where the person is not.</summary>
    public FileProblem? HereProblem => Here ? new(Row.File, Row.Line, $"{Candidate} has a case for this exam already. Add new results there.") : null;

    /// <summary>How the form names the row.</summary>
    public string Id => Row.Line.ToString(System.Globalization.CultureInfo.InvariantCulture);
}
