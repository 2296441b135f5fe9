namespace Homestretch.Core.Forecasting;

/// <summary>One combination of what is uncertain about a person and the exam; given it, topics are independent.</summary>
/// <param name="Weight">How much it counts; the weights of all conditions sum to 1.</param>
/// <param name="Form">How much easier the exam's form is, in logits.</param>
/// <param name="Rate">Logits per effective hour of study.</param>
/// <param name="Node">Index of the overall ability among the posterior's nodes.</param>
internal readonly record struct ScoreCondition(double Weight, double Form, double Rate, int Node);
