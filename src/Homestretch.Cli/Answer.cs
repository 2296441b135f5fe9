using Spectre.Console;

namespace Homestretch.Cli;

/// <summary>Where a command's answer goes: to people, or as one document to a program.</summary>
/// <param name="Console">For people.</param>
/// <param name="Output">Standard output, for a document and nothing else.</param>
/// <param name="Errors">Standard error, for the progress of long work.</param>
public sealed record Answer(IAnsiConsole Console, TextWriter Output, TextWriter Errors);
