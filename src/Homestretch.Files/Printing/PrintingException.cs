namespace Homestretch.Files.Printing;

/// <summary>A PDF that could not be made: no Chromium here, or it failed, or it took too long.</summary>
/// <param name="message">Why, and what to do about it, for the person who asked.</param>
public sealed class PrintingException(string message) : Exception(message);
