using System.Collections.Immutable;
using System.Text;

using Homestretch.Core.Deciding;
using Homestretch.Core.Planning.Sensitivity;
using Homestretch.Files;
using Homestretch.Files.Documents;
using Homestretch.Web.Assuming;
using Homestretch.Web.Cases;

using NodaTime;

namespace Homestretch.Web.Api;

/// <summary>The documents of a case, kept or of the demo, under the assumptions of the query: the same that the shell program prints (docs/json.md).</summary>
internal static class DocumentOperations
{
    private const string Tag = "Documents";
    private const string WhatIf = "?hours=6";

    // A request is answered while somebody waits; the shell's answer rests on more.
    private const int ResultsTried = 24;

    private static readonly ImmutableArray<(string Name, string Says)> _whatIf =
    [
        (Assumed.DayField, "What if the exam were on this day? ISO 8601, from tomorrow to half a year from now."),
        (Assumed.HoursField, "What if there were so many hours a week to study? From 0 to what the free time can hold."),
        (Assumed.PolicyField, "Whose blocks: optimised (usual) or practice-order."),
        ("cut", "What if the total cut score were another? In the unit of the exam file."),
        ("cut-1", "What if the cut score of the first section were another? cut-2 is the second's, and so on."),
    ];

    private static readonly ImmutableArray<(string Name, string Says)> _terms =
    [
        ("goal", "The pass chance that is good enough, a whole number of percent from 1 to 99; usually 80."),
        ("retake-fee", "What sitting again costs, from 0 to 1000000."),
        ("postpone-fee", "What moving the date costs, from 0 to 1000000."),
        ("postpone-until", "The last day on which the date can be moved, ISO 8601."),
        ("last-date", "The last day on which the exam may be sat, ISO 8601."),
    ];

    public static void Map(RouteGroupBuilder api)
    {
        Document<ExamDocument>(api, "exam", "getExamDocument", "The exam's blueprint.", r => DocumentJson.Write(ExamDocument.Of(r.Standing.Exam)));
        Document<StandingDocument>(api, "standing", "getStanding", "Where the person stands on every topic, and how sure that is.", r => DocumentJson.Write(StandingDocument.Of(r.Candidate, r.Standing, r.Basis, r.Study)));
        Document<ForecastDocument>(api, "forecast", "getForecast", "The chance of passing as things stand.", r => DocumentJson.Write(ForecastDocument.Of(r)));
        Document<PlanDocument>(api, "plan", "getPlan", "The best plan from now, block by block, with what would change it.", r => DocumentJson.Write(PlanDocument.Of(r)), changes: true);
        api.MapGet("/cases/{key}/worth", async (string key, HttpContext context, CaseLibrary library) =>
        {
            (WorkbenchView? view, ApiProblem? problem) = await ViewAsync(key, context, library, changes: false);
            return view is null ? problem! : Results.Json(new WorthList(ForecastDocument.Of(view.Report).Worth), ApiJson.Options);
        }).Produces<WorthList>().Says(Tag, "getWorth", "What the next half hour on each topic adds to score and pass chance.", [400, 404, 409, 504], query: WhatIf).WithQuery(_whatIf);
        api.MapGet("/cases/{key}/assumptions", AssumptionsAsync).Produces<AssumptionsDocument>()
            .Says(Tag, "getAssumptions", "Which of the model's assumptions the plan hangs on; takes a few seconds.", [400, 404, 409, 504]).WithQuery(_whatIf);
        api.MapGet("/cases/{key}/decide/dates", (string key, HttpContext context, CaseLibrary library) => DecideAsync(key, context, library, Dates)).Produces<DateDocument>()
            .Says(Tag, "decideDates", "Exam dates compared, week by week from the booked one.", [400, 404, 409, 504], query: "?retake-fee=180&postpone-fee=40").WithQuery(_terms);
        api.MapGet("/cases/{key}/decide/hours", (string key, HttpContext context, CaseLibrary library) => DecideAsync(key, context, library, Hours)).Produces<HoursDocument>()
            .Says(Tag, "decideHours", "Hours a week compared.", [400, 404, 409, 504]);
        api.MapGet("/cases/{key}/decide/test", (string key, HttpContext context, CaseLibrary library) => DecideAsync(key, context, library, Test)).Produces<TestValueDocument>()
            .Says(Tag, "decideTest", "What one more practice exam, or a quiz on a topic, would change, and what its minutes cost.", [400, 404, 409, 504], query: "?test=practice-exam")
            .WithQuery([("test", "practice-exam, or the name of a topic for a quiz."), ("items", "Items of a quiz, a whole number from 1 to 100; usually 10.")]);
    }

    /// <summary>A case under the assumptions of a query; a problem where there is no such case or the query cannot be used.</summary>
    internal static async Task<(WorkbenchView? View, ApiProblem? Problem)> ViewAsync(string key, HttpContext context, CaseLibrary library, bool changes)
    {
        (PreparedCase? prepared, _, ApiProblem? problem) = await PreparedAsync(key, context, library);
        if (prepared is null)
        {
            return (null, problem);
        }

        Assumed assumed = Assumed.Read(prepared, name => context.Request.Query[name]);
        List<ApiError> errors = [.. Unknown(context, [.. assumed.Fields.Select(f => f.Name), Assumed.PolicyField]), .. Wrong(context, assumed.Fields)];
        if (assumed.PolicyProblem is { } policy)
        {
            errors.Add(new(policy, Field: Assumed.PolicyField, Value: context.Request.Query[Assumed.PolicyField]));
        }

        if (errors.Count > 0)
        {
            return (null, BadQuery(errors));
        }

        WorkbenchView view = await context.RequestServices.GetRequiredService<Workbench>().OpenAsync(prepared.Case, name => context.Request.Query[name], context.RequestAborted);
        return (changes ? view.WithChanges(context.RequestAborted) : view, null);
    }

    /// <summary>Names what an operation takes in its query.</summary>
    internal static RouteHandlerBuilder WithQuery(this RouteHandlerBuilder route, ImmutableArray<(string Name, string Says)> parameters)
        => route.AddOpenApiOperationTransformer((operation, _, _) =>
        {
            ApiDescription.AddQuery(operation, parameters);
            return Task.CompletedTask;
        });

    private static void Document<T>(RouteGroupBuilder api, string name, string operation, string says, Func<CandidateReport, string> write, bool changes = false)
        => api.MapGet($"/cases/{{key}}/{name}", async (string key, HttpContext context, CaseLibrary library) =>
        {
            (WorkbenchView? view, ApiProblem? problem) = await ViewAsync(key, context, library, changes);
            return view is null ? problem! : Written(write(view.Report));
        }).Produces<T>().Says(Tag, operation, says, [400, 404, 409, 504], query: WhatIf).WithQuery(_whatIf);

    /// <summary>A document as the shell program prints it.</summary>
    internal static IResult Written(string document) => Results.Text(document, ApiJson.MediaType, Encoding.UTF8);

    private static async Task<(PreparedCase? Prepared, ZonedDateTime From, ApiProblem? Problem)> PreparedAsync(string key, HttpContext context, CaseLibrary library)
    {
        (ReadCase? found, ApiProblem? problem) = await ReadAsync(key, context, library);
        if (found is null)
        {
            return (null, default, problem);
        }

        ZonedDateTime from = library.Now(found);
        return (library.Prepare(found, from.Date), from, null);
    }

    /// <summary>A case as read; a problem where there is none, or it can no longer be read.</summary>
    internal static async Task<(ReadCase? Found, ApiProblem? Problem)> ReadAsync(string key, HttpContext context, CaseLibrary library)
    {
        ReadResult<ReadCase>? read = await library.FindAsync(key, context.RequestAborted);
        return read is null ? (null, ApiProblem.NoCase(key))
            : read.Value is { } found ? (found, null)
            : (null, ApiProblem.Of(StatusCodes.Status409Conflict, "This case can no longer be read: something is wrong in its files.", ApiProblem.Errors(read.Problems)));
    }

    private static async Task<IResult> AssumptionsAsync(string key, HttpContext context, CaseLibrary library)
    {
        (WorkbenchView? view, ApiProblem? problem) = await ViewAsync(key, context, library, changes: false);
        if (view is null)
        {
            return problem!;
        }

        SensitivityTable table = view.Sensitivity(context.RequestAborted);
        return Written(DocumentJson.Write(AssumptionsDocument.Of(view.Case.Candidate, view.Report.Standing, view.Report.Basis, table)));
    }

    private static async Task<IResult> DecideAsync(string key, HttpContext context, CaseLibrary library, Func<HttpContext, PreparedCase, ZonedDateTime, DecisionQuestion, IResult> answer)
    {
        (PreparedCase? prepared, ZonedDateTime from, ApiProblem? problem) = await PreparedAsync(key, context, library);
        if (prepared is null)
        {
            return problem!;
        }

        DecisionQuestion question = DecisionQuestion.Read(name => context.Request.Query[name]);
        List<ApiError> errors = [.. Unknown(context, [.. question.Fields.Select(f => f.Name), question.ItemsField.Name, "test"]), .. Wrong(context, [.. question.Fields, question.ItemsField])];
        return errors.Count > 0 ? BadQuery(errors) : answer(context, prepared, from, question);
    }

    private static IResult Dates(HttpContext context, PreparedCase prepared, ZonedDateTime from, DecisionQuestion question)
    {
        ReadCase found = prepared.Case;
        DateAdvice advice = DateAdvisor.Compare(
            prepared.Standing, found.Sittings, found.Free, prepared.Busy, from, found.ExamDay,
            [.. DateAdvisor.WeekByWeek(found.ExamDay, DecisionQuestion.Weeks).Where(d => d <= prepared.LastExamDay)], question.Terms, context.RequestAborted);
        return Written(DocumentJson.Write(DateDocument.Of(found.Candidate, prepared.Standing, prepared.Basis, advice)));
    }

    private static IResult Hours(HttpContext context, PreparedCase prepared, ZonedDateTime from, DecisionQuestion question)
    {
        ReadCase found = prepared.Case;
        HoursAdvice advice = HoursAdvisor.Compare(prepared.Standing, found.Free, prepared.Busy, from, found.ExamDay, HoursAdvisor.Usual(found.Free), context.RequestAborted);
        return Written(DocumentJson.Write(HoursDocument.Of(found.Candidate, prepared.Standing, prepared.Basis, advice)));
    }

    private static IResult Test(HttpContext context, PreparedCase prepared, ZonedDateTime from, DecisionQuestion question)
    {
        ReadCase found = prepared.Case;
        int topic = Array.FindIndex([.. found.Exam.Topics], t => t.Name == question.Test);
        if (topic < 0 && question.Test != DecisionQuestion.PracticeExam)
        {
            return BadQuery([new($"test is {DecisionQuestion.PracticeExam} or one of {string.Join(", ", found.Exam.Topics.Select(t => t.Name))}.", Field: "test", Value: context.Request.Query["test"].ToString())]);
        }

        ProposedTest test = topic < 0 ? ProposedTest.PracticeExam(found.Exam) : ProposedTest.Quiz(found.Exam, topic, question.QuizItems);
        TestValue? value = TestAdvisor.Value(prepared.Standing, found.Person.Attempts, found.Free, prepared.Busy, from, found.ExamDay, test, prepared.Basis.Bank, ResultsTried, context.RequestAborted);
        return value is null
            ? ApiProblem.Of(StatusCodes.Status409Conflict, "The free time before the last, light days does not hold this test and going over its answers.")
            : Written(DocumentJson.Write(TestValueDocument.Of(found.Candidate, prepared.Standing, prepared.Basis, value)));
    }

    private static IEnumerable<ApiError> Unknown(HttpContext context, string[] known)
        => context.Request.Query.Keys.Where(name => !known.Contains(name)).Select(name => new ApiError($"There is no such parameter here; there are {string.Join(", ", known)}.", Field: name, Value: context.Request.Query[name]));

    private static IEnumerable<ApiError> Wrong(HttpContext context, IEnumerable<AssumedField> fields)
        => fields.Where(f => f.Problem is not null).Select(f => new ApiError(f.Problem!, Field: f.Name, Value: context.Request.Query[f.Name]));

    private static ApiProblem BadQuery(IEnumerable<ApiError> errors) => ApiProblem.Of(StatusCodes.Status400BadRequest, "The query cannot be used as it is.", errors);
}
