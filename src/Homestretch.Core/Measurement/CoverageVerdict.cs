namespace Homestretch.Core.Measurement;

/// <summary>How a test's items on a topic compare with the blueprint.</summary>
public enum CoverageVerdict
{
    /// <summary>None at all, though the exam has some.</summary>
    Missing,

    /// <summary>Too few to say anything about the topic, or far fewer than its share.</summary>
    TooFew,

    /// <summary>About its share.</summary>
    Fair,

    /// <summary>Far more than its share.</summary>
    OverSampled,
}
