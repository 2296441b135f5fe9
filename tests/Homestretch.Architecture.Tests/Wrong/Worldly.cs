using NodaTime;

namespace Homestretch.Architecture.Tests.Wrong;

/// <summary>A wrong example: touches everything that the model must not touch.</summary>
public static class Worldly
{
    private static int Counter;

    public static object[] Touch() =>
    [
        File.Exists("x"),
        Console.Out,
        Environment.ProcessId,
        SystemClock.Instance,
        DateTime.Now,
        DateTime.UtcNow,
        Random.Shared,
        ++Counter,
    ];
}
