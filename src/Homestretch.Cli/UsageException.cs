namespace Homestretch.Cli;

/// <summary>The command line makes no sense; the message says why in one sentence.</summary>
public sealed class UsageException(string message) : Exception(message);
