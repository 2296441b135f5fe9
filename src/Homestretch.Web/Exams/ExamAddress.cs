namespace Homestretch.Web.Exams;

/// <summary>Addresses of the pages on which an exam is worked on.</summary>
public static class ExamAddress
{
    /// <summary>Stands for an exam that is not kept yet.</summary>
    public const string New = "new";

    /// <summary>A page on which an exam is worked on.</summary>
    /// <param name="key">The exam; null for a new one.</param>
    /// <param name="page"><c>edit</c>, <c>paste</c>, <c>text</c> or <c>change</c>.</param>
    /// <param name="edit">What is being typed; null to begin.</param>
    public static string Work(string? key, string page, string? edit)
        => $"/exams/{(key is null ? New : Uri.EscapeDataString(key))}{(key is null && page == "edit" ? "" : "/" + page)}{(edit is null ? "" : "?draft=" + Uri.EscapeDataString(edit))}";

    /// <summary>The page of a kept exam.</summary>
    public static string Of(string key) => "/exams/" + Uri.EscapeDataString(key);
}
