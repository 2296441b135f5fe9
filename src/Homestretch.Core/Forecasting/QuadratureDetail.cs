namespace Homestretch.Core.Forecasting;

/// <summary>How finely a <see cref="ScoreModel"/> integrates.</summary>
public enum QuadratureDetail
{
    /// <summary>For figures that are shown: pass chances are good to about 1e-6.</summary>
    Full,

    /// <summary>For comparing thousands of plans: pass chances are good to about a tenth of a point.</summary>
    Coarse,
}
