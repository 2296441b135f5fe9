namespace Homestretch.Core.Calibration;

/// <summary>Why a person does not count in a comparison of forecasts and outcomes.</summary>
public enum LeftOutReason
{
    /// <summary>There is no attempt that counts as the outcome.</summary>
    NoOutcome,

    /// <summary>Nothing is dated before the outcome.</summary>
    NothingBefore,

    /// <summary>The outcome's report says nothing of a topic of the exam, so whether it passed cannot be worked out.</summary>
    Incomplete,

    /// <summary>The report gives bands of counts, of which some pass and some do not.</summary>
    Ambiguous,
}
