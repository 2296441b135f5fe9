using System.Collections.Immutable;

using Homestretch.Files.Pictures;
using Homestretch.Store;

using NodaTime;

namespace Homestretch.Web.Keeping;

/// <summary>A line in a list of what is kept: rows that came together and are taken out together.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Detail">More about it; may be empty.</param>
/// <param name="Rows">Its rows, at least one; all of them taken out, or none.</param>
public sealed record KeptEntry(string Name, string Detail, ImmutableArray<KeptRow> Rows)
{
    /// <summary>When it was taken out; null while it counts.</summary>
    public Instant? RemovedAt => Rows[0].RemovedAt;

    /// <summary>What kind of rows, as a form names it.</summary>
    public string Kind => Rows[0].GetType().Name;

    /// <summary>The numbers of its rows, as a form carries them.</summary>
    public string Ids => IdList.Write(Rows.Select(r => r.Id));

    /// <summary>"from mara.csv on Wednesday 25 November 2026".</summary>
    public string Came
    {
        get
        {
            string how = Rows[0].Origin switch
            {
                // A file that stands under its own name need not say it twice.
                Origin.File => Rows[0].OriginFile == Name ? "added" : "from " + Rows[0].OriginFile,
                Origin.Coach => "entered by the coach",
                Origin.Candidate => "entered by the candidate",
                _ => "worked out here",
            };
            return $"{how} on {Dates.FullDay(Rows[0].At.InUtc().Date)}";
        }
    }
}
