namespace Homestretch.Core.Measurement;

/// <summary>A figure, or the reason in plain words why the data do not give it. Never NaN or infinite.</summary>
public readonly record struct Statistic
{
    private readonly double _value;
    private readonly string? _refusal;

    private Statistic(double value, string? refusal)
    {
        _value = value;
        _refusal = refusal;
    }

    /// <summary>The figure, or null where it is refused.</summary>
    public double? Value => Refusal is null ? _value : null;

    /// <summary>Why there is no figure, as a sentence; null where there is one.</summary>
    public string? Refusal => _refusal;

    /// <summary>Whether there is a figure.</summary>
    public bool Known => _refusal is null;

    /// <summary>A figure.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is not finite.</exception>
    public static Statistic Of(double value) => double.IsFinite(value)
        ? new Statistic(value, null)
        : throw new ArgumentOutOfRangeException(nameof(value), value, "A statistic is a finite number or a refusal.");

    /// <summary>No figure.</summary>
    /// <param name="why">The reason, as a sentence.</param>
    public static Statistic Refused(string why)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(why);
        return new Statistic(0, why);
    }
}
