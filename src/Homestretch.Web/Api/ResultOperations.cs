using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Files;
using Homestretch.Store;
using Homestretch.Web.Afterwards;
using Homestretch.Web.Candidates;
using Homestretch.Web.Cases;
using Homestretch.Web.Uploads;

using NodaTime.Extensions;

namespace Homestretch.Web.Api;

/// <summary>How the official exam ended: listed, recorded, taken out, put back.</summary>
internal static class ResultOperations
{
    private const string Tag = "Results";

    public static void Map(RouteGroupBuilder api)
    {
        RowOperations.MapList(api, "results", Tag, "official results", "Results", c => c.Results, ResultLine.Of);
        api.MapPost("/cases/{key}/results", RecordAsync).Accepts<NewResult>(ApiJson.MediaType).Produces<RecordedResult>(201)
            .Says(
                Tag, "addResult", "Records how the official exam ended, with what the report says of topics, all or nothing; the plan is then made anew.", [400, 404, 409, 412, 413, 415, 422],
                "-X POST -H 'Content-Type: application/json' -d '{\"date\": \"2026-11-27\", \"passed\": false, \"score\": \"61 of 110\", \"topics\": [{\"topic\": \"Cataloguing\", \"figure\": \"9 of 23\"}]}'");
        RowOperations.MapMarks<OfficialResult>(api, "results", Tag, "official results", "Results");
    }

    private static async Task<IResult> RecordAsync(string key, HttpContext context, CaseLibrary library, CaseStore store, PlanKeeper keeper, TimeProvider time)
    {
        if (await ApiState.ChangedAsync(context, store, key) is { } stale)
        {
            return stale;
        }

        (NewResult? asked, ApiProblem? problem) = await ApiBody.ReadAsync<NewResult>(context);
        if (asked is null)
        {
            return problem!;
        }

        (ReadCase? found, ApiProblem? unread) = await DocumentOperations.ReadAsync(key, context, library);
        if (found is null || await store.FindAsync(key, context.RequestAborted) is not { } stored)
        {
            return unread ?? ApiProblem.NoCase(key);
        }

        List<ApiError> errors = [];
        (ResultEntry entry, ImmutableDictionary<string, int> places) = Entered(asked, found.Exam, errors);
        errors.AddRange(entry.Problems(found, stored, library.Now(found).Date).Select(p => Error(p, entry, places)));
        if (errors.Count > 0)
        {
            return ApiProblem.Unusable(errors);
        }

        ImmutableArray<KeptRow> kept = await ResultRoutes.KeepAsync(found, entry, store, keeper, time.GetUtcNow().ToInstant(), context.RequestAborted);
        return Results.Json(new RecordedResult(kept[0].Id, [.. kept.OfType<EvidenceRow>().Select(r => r.Id)]), ApiJson.Options, statusCode: StatusCodes.Status201Created)
            .At(context, $"{ApiRoutes.Root}/cases/{key}/results");
    }

    // The entry that a person would have typed, and where in the body each of its fields for a topic came from.
    private static (ResultEntry Entry, ImmutableDictionary<string, int> Places) Entered(NewResult asked, Exam exam, List<ApiError> errors)
    {
        string[] names = [.. exam.Topics.Select(t => t.Name)];
        string[] figures = [.. names.Select(_ => "")];
        Dictionary<string, int> places = [];
        foreach ((int i, TopicResult? said) in (asked.Topics ?? []).Index())
        {
            string at = string.Create(CultureInfo.InvariantCulture, $"/topics/{i}");
            int topic = Array.FindIndex(names, n => string.Equals(n, said?.Topic.Trim(), StringComparison.OrdinalIgnoreCase));
            if (topic < 0)
            {
                string hint = NearestName.Suggest(said?.Topic ?? "", names) is { } near ? $" Did you mean '{near}'?" : "";
                errors.Add(new($"The exam has no topic of this name.{hint} Its topics are: {string.Join(", ", names)}.", At: at + "/topic", Value: said?.Topic));
            }
            else if (!places.TryAdd(ResultEntry.FieldOf(topic), i))
            {
                errors.Add(new("Each topic is given once; this one was given before.", At: at + "/topic", Value: said!.Topic));
            }
            else if (string.IsNullOrWhiteSpace(said!.Figure))
            {
                errors.Add(new($"Write {ReportedFigure.Accepted}, or leave the topic out.", At: at + "/figure", Value: said.Figure));
            }
            else
            {
                figures[topic] = said.Figure.Trim();
            }
        }

        return (new(asked.Date.Trim(), asked.Passed, (asked.Score ?? "").Trim(), [.. figures]), places.ToImmutableDictionary());
    }

    private static ApiError Error(UploadProblem problem, ResultEntry entry, ImmutableDictionary<string, int> places) => problem.Field switch
    {
        ResultEntry.DateField => new(problem.Text, At: "/date", Value: entry.Date),
        ResultEntry.PassedField => new(problem.Text, At: "/passed"),
        ResultEntry.ScoreField => new(problem.Text, At: "/score", Value: entry.Score),
        var topic => new(problem.Text, At: string.Create(CultureInfo.InvariantCulture, $"/topics/{places[topic]}/figure")),
    };
}
