namespace Homestretch.Core.Forecasting;

/// <summary>A form, a rate of learning and the ability nodes that go with them.</summary>
/// <param name="Form">What the form adds to every ability, in logits.</param>
/// <param name="Rate">Gain per first hour on an average topic, in logits.</param>
/// <param name="Weight">Of form and rate; that of the nodes comes on top.</param>
/// <param name="First">The first ability node.</param>
/// <param name="Count">How many nodes.</param>
internal readonly record struct Condition(double Form, double Rate, double Weight, int First, int Count);
