using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Files.QuizItems;
using Homestretch.Store;
using Homestretch.Web.Candidates;
using Homestretch.Web.Hosting;
using Homestretch.Web.Keeping;

using Microsoft.AspNetCore.Mvc;

using NodaTime;
using NodaTime.Extensions;
using NodaTime.Text;

namespace Homestretch.Web.Quizzing;

/// <summary>Takes the answers to a short quiz of items.</summary>
public static class QuizRoutes
{
    // A quiz lies open on a phone until the evening, not until next week.
    private static readonly Duration _longest = Duration.FromHours(24);

    /// <summary>Maps it.</summary>
    public static void MapQuizzes(this IEndpointRouteBuilder routes) => routes.MapPost("/me/{token}/quiz/items", AnswerAsync);

    private static async Task<IResult> AnswerAsync(
        string token, [FromForm] IFormCollection form, PersonalCases cases, QuizShelf shelf, CaseStore store, TimeProvider time, CancellationToken cancellation)
    {
        if (await cases.FindAsync(token, cancellation) is not { } view || await store.FindAsync(view.Key, cancellation) is not { } stored)
        {
            return Results.NotFound();
        }

        // Nothing of the form is taken for true: which items there are, what their options and keys are, is read anew.
        Instant now = time.GetUtcNow().ToInstant();
        ImmutableArray<QuizItem> all = await shelf.ItemsAsync(view.Key, view.Case.Exam, cancellation);
        if (!long.TryParse(form["quiz"], NumberStyles.None, CultureInfo.InvariantCulture, out long quiz)
            || quiz > now.ToUnixTimeSeconds() || quiz < (now - _longest).ToUnixTimeSeconds()
            || ItemQuiz.Named(all, form["items"].ToString()) is not { } items)
        {
            return new SeeOther($"/me/{token}/quiz?stale=yes");
        }

        string attempt = ItemQuiz.Attempt(quiz, view.Now.Zone);
        if (stored.Evidence.Where(r => r.Attempt == attempt && r.Origin == Origin.Candidate).ToArray() is { Length: > 0 } there)
        {
            // A second tap.
            return new SeeOther(Result(token, there));
        }

        List<EvidenceRow> rows = [];
        foreach ((int i, QuizItem item) in items.Index())
        {
            if (ItemQuiz.Chosen(item, [.. form[string.Create(CultureInfo.InvariantCulture, $"answer-{i}")].OfType<string>()]) is not { } chosen)
            {
                return new SeeOther($"/me/{token}/quiz?stale=yes");
            }

            string key = ItemQuiz.Key(item);
            rows.Add(new()
            {
                At = now,
                Origin = Origin.Candidate,
                Candidate = view.Case.Candidate,
                Attempt = attempt,
                Kind = "quiz",
                Date = LocalDatePattern.Iso.Format(view.Now.Date),
                Topic = item.Topic,
                Subtopic = item.Subtopic ?? "",
                Item = item.Id,
                Correct = chosen == key ? "1" : "0",
                Chosen = chosen,
                Key = chosen.Length > 0 ? key : "",
            });
        }

        int right = rows.Count(r => r.Correct == "1");
        string what = string.Create(CultureInfo.InvariantCulture, $"A short quiz: {right} of {rows.Count} on {items[0].Topic}.");
        (_, ImmutableArray<string> problems) = await cases.RecordAnswersAsync(view, rows, what, cancellation);
        return new SeeOther(problems.IsEmpty ? Result(token, [.. rows]) : $"/me/{token}/quiz?problem={Uri.EscapeDataString(problems[0].Length <= 300 ? problems[0] : problems[0][..300])}");
    }

    private static string Result(string token, EvidenceRow[] rows) => $"/me/{token}/quiz/result?rows={Uri.EscapeDataString(IdList.Write(rows.Select(r => r.Id)))}";
}
