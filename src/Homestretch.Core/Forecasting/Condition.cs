namespace Homestretch.Core.Forecasting;

/// <summary>A form, a rate of learning, how far the time reaches, and the ability nodes that go with them.</summary>
/// <param name="Form">What the form adds to every ability, in logits.</param>
/// <param name="Rate">Gain per first hour on an average topic, in logits.</param>
/// <param name="Reach">How far the person gets in each section.</param>
/// <param name="Weight">Of form, rate and reach; that of the nodes comes on top.</param>
/// <param name="First">The first ability node.</param>
/// <param name="Count">How many nodes.</param>
internal readonly record struct Condition(double Form, double Rate, ReachNode Reach, double Weight, int First, int Count);
