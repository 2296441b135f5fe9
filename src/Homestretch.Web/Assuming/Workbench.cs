using Homestretch.Web.Candidates;
using Homestretch.Web.Cases;

using NodaTime;

namespace Homestretch.Web.Assuming;

/// <summary>Opens cases for a coach to look at and to try assumptions on.</summary>
/// <param name="library">Finds and prepares cases.</param>
/// <param name="keeper">Knows the plan that was kept last.</param>
public sealed class Workbench(CaseLibrary library, PlanKeeper keeper)
{
    /// <summary>What the page of a case shows under the assumptions of an address; null where there is no such case, or it can no longer be read.</summary>
    /// <param name="key">The case.</param>
    /// <param name="field">Gives the text of a field in the address, or null where it has none.</param>
    /// <param name="changes">Whether to find out what would change the plan, too.</param>
    /// <param name="cancellation">Stops the planning.</param>
    public async Task<WorkbenchView?> FindAsync(string key, Func<string, string?> field, bool changes, CancellationToken cancellation)
    {
        if ((await library.FindAsync(key, cancellation))?.Value is not { } found)
        {
            return null;
        }

        WorkbenchView view = await OpenAsync(found, field, cancellation);
        return changes ? view.WithChanges(cancellation) : view;
    }

    /// <summary>What a case's page shows at this moment. The plan goes on from the one the candidate sees.</summary>
    /// <param name="of">The case.</param>
    /// <param name="field">What the person assumes: the text of a field by its name, null where it is as the case has it.</param>
    /// <param name="cancellation">Stops the reading.</param>
    public async Task<WorkbenchView> OpenAsync(ReadCase of, Func<string, string?> field, CancellationToken cancellation)
    {
        ZonedDateTime from = library.Now(of);
        PreparedCase prepared = library.Prepare(of, from.Date);
        return WorkbenchView.Build(prepared, from, Assumed.Read(prepared, field), await keeper.OnwardAsync(prepared, from, cancellation));
    }
}
