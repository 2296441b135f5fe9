namespace Homestretch.Web.Api;

/// <summary>The interface for other programs: what the pages do, as JSON over HTTP.</summary>
public static class ApiRoutes
{
    /// <summary>What every address of it begins with.</summary>
    public const string Root = "/api/v1";

    /// <summary>Address of its description.</summary>
    public const string DocumentAddress = Root + "/openapi.json";

    // Plans, decisions and tables of assumptions take seconds on a busy computer.
    private static readonly TimeSpan _longest = TimeSpan.FromMinutes(1);

    /// <summary>Maps all of it.</summary>
    public static void MapApi(this IEndpointRouteBuilder routes)
    {
        routes.MapOpenApi(DocumentAddress);
        RouteGroupBuilder api = routes.MapGroup(Root);
        api.WithRequestTimeout(_longest);
        CaseOperations.Map(api);
        DocumentOperations.Map(api);
        RowOperations.Map(api);
        KeepingOperations.Map(api);
        ResultOperations.Map(api);
        RoomOperations.Map(api);
        ExamOperations.Map(api);
        MovingOperations.Map(api);
    }

    /// <summary>Says what an operation is, for the description and for people.</summary>
    /// <param name="route">The operation.</param>
    /// <param name="tag">What it is about.</param>
    /// <param name="name">Its name, unlike that of any other.</param>
    /// <param name="summary">What it does, in a sentence.</param>
    /// <param name="problems">Statuses of its problems, beside 403 and 500.</param>
    /// <param name="arguments">What follows the address in a call with curl.</param>
    /// <param name="query">The query of the address in that call.</param>
    internal static RouteHandlerBuilder Says(this RouteHandlerBuilder route, string tag, string name, string summary, int[] problems, string arguments = "", string query = "")
    {
        route.WithTags(tag).WithName(name).WithSummary(summary).WithMetadata(new ApiExample(arguments, query));
        foreach (int status in problems.Append(StatusCodes.Status403Forbidden).Append(StatusCodes.Status500InternalServerError))
        {
            route.Produces<ProblemFields>(status, ApiProblem.MediaType);
        }

        return route;
    }
}
