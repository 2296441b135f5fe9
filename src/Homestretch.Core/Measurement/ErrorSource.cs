namespace Homestretch.Core.Measurement;

/// <summary>Where standard errors come from.</summary>
public enum ErrorSource
{
    /// <summary>The observed information: the curvature of the log-likelihood at its maximum.</summary>
    ObservedInformation,

    /// <summary>The sum of the cross-products of the persons' scores.</summary>
    CrossProduct,
}
