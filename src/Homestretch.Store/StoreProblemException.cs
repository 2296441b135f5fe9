namespace Homestretch.Store;

/// <summary>A store that cannot be opened.</summary>
/// <param name="message">Why, for the person who asked.</param>
/// <param name="inner">What the database said.</param>
public sealed class StoreProblemException(string message, Exception inner) : Exception(message, inner);
