namespace Homestretch.Core.Standing;

/// <summary>The joint posterior of a person's abilities.</summary>
public sealed class AbilityPosterior
{
}
