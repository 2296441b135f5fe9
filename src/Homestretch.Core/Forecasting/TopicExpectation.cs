using Homestretch.Core.Blueprints;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Forecasting;

/// <summary>Expected correct answers on one topic when its ability is moved.</summary>
internal sealed class TopicExpectation
{
    private const double Negligible = 1e-10;

    private readonly int items;
    private readonly ResponseCurve curve;
    private readonly Node[] abilities;

    public TopicExpectation(ExamTopic examTopic, int topic, AbilityPosterior posterior)
    {
        items = examTopic.Items;
        curve = posterior.ExamCurve(topic, examTopic.Name);
        double[] marginal = posterior.Marginal(topic);
        abilities = [.. marginal.Select((weight, i) => new Node(posterior.Grid[i], weight)).Where(n => n.Weight > Negligible)];
    }

    public double Expected(double move)
    {
        double sum = 0;
        foreach (Node ability in abilities)
        {
            sum += ability.Weight * curve.Chance(ability.At + move);
        }

        return items * sum;
    }
}
