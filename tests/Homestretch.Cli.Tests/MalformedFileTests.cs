namespace Homestretch.Cli.Tests;

/// <summary>Every malformed file that the readers are tested with, given to the real program: a message with file and line, no stack trace.</summary>
public abstract class MalformedFileTests
{
    private const string Exam = "examples/museum-registrar/exam.yaml";
    private const string Evidence = "examples/museum-registrar/mara-venn.csv";
    private const string Free = "examples/museum-registrar/mara-venn.free.yaml";

    /// <summary>Paths of a kind's cases, as a person in the checkout's folder names them.</summary>
    protected static TheoryData<string> Cases(string kind)
    {
        string[] cases =
        [
            .. Directory.GetFiles(Ran.InCheckout("tests", "Homestretch.Files.Tests", "cases", kind))
                .Where(f => !f.EndsWith(".expected.txt", StringComparison.Ordinal))
                .Select(f => Path.GetRelativePath(Ran.InCheckout(), f))
                .Order(StringComparer.Ordinal),
        ];
        Assert.True(cases.Length >= 10, $"There are only {cases.Length} cases of kind {kind}.");
        return [.. cases];
    }

    /// <summary>Runs a command on a malformed file.</summary>
    protected static async Task AssertRefused(string file, params string[] args)
    {
        Ran ran = await Ran.Program(args);

        ran.AssertBadInput();
        Assert.All(ran.ErrorLines, line => Assert.StartsWith(file + ":", line, StringComparison.Ordinal));
    }

    /// <summary>Exam files.</summary>
    public sealed class Exams : MalformedFileTests
    {
        public static TheoryData<string> Files() => Cases("exam");

        [Theory]
        [MemberData(nameof(Files))]
        public Task AreRefused(string file) => AssertRefused(file, "exam", file, "--json");
    }

    /// <summary>Evidence files.</summary>
    public sealed class Evidences : MalformedFileTests
    {
        public static TheoryData<string> Files() => Cases("evidence");

        [Theory]
        [MemberData(nameof(Files))]
        public Task AreRefused(string file) => AssertRefused(file, "forecast", Exam, file);
    }

    /// <summary>Study logs.</summary>
    public sealed class StudyLogs : MalformedFileTests
    {
        public static TheoryData<string> Files() => Cases("study-log");

        [Theory]
        [MemberData(nameof(Files))]
        public Task AreRefused(string file) => AssertRefused(file, "standing", Exam, Evidence, "--log", file, "--json");
    }

    /// <summary>Words.</summary>
    public sealed class WordLists : MalformedFileTests
    {
        public static TheoryData<string> Files() => Cases("words");

        [Theory]
        [MemberData(nameof(Files))]
        public Task AreRefused(string file) => AssertRefused(file, "words", Exam, file, "--today", "2026-12-02", "--exam-day", "2026-12-16", "--json");
    }

    /// <summary>Earlier plans.</summary>
    public sealed class Plans : MalformedFileTests
    {
        public static TheoryData<string> Files() => Cases("plan");

        [Theory]
        [MemberData(nameof(Files))]
        public Task AreRefused(string file)
            => AssertRefused(file, "plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--from", "2026-11-25T08:00", "--before", file, "--json");
    }

    /// <summary>Free-time files.</summary>
    public sealed class FreeTimes : MalformedFileTests
    {
        public static TheoryData<string> Files() => Cases("free-time");

        [Theory]
        [MemberData(nameof(Files))]
        public Task AreRefused(string file) => AssertRefused(file, "plan", Exam, Evidence, "--free", file, "--exam-day", "2026-12-16", "--from", "2026-11-25T08:00");
    }

    /// <summary>Calendars.</summary>
    public sealed class Calendars : MalformedFileTests
    {
        public static TheoryData<string> Files() => Cases("busy");

        [Theory]
        [MemberData(nameof(Files))]
        public Task AreRefused(string file)
            => AssertRefused(file, "plan", Exam, Evidence, "--free", Free, "--busy", file, "--exam-day", "2026-12-16", "--from", "2026-11-25T08:00", "--json");
    }
}
