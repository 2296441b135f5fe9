namespace Homestretch.Core.Measurement;

/// <summary>The data cannot carry the model asked for; the message says why, in plain words, and what would help.</summary>
public sealed class UnsuitableDataException : Exception
{
    /// <param name="message">Why, and what would help.</param>
    public UnsuitableDataException(string message)
        : base(message)
    {
    }
}
