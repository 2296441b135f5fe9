using Homestretch.Core.Planning;

namespace Homestretch.Files.Documents;

/// <summary>What the next minutes of study on a topic are worth.</summary>
/// <param name="Topic">The topic.</param>
/// <param name="Minutes">The minutes the gains are for.</param>
/// <param name="ScoreGain">Gain in expected correct answers.</param>
/// <param name="PassGain">Gain in pass chance as a difference of chances; 0.01 is one point.</param>
public sealed record WorthFields(string Topic, int Minutes, double ScoreGain, double PassGain)
{
    internal static WorthFields Of(TopicWorth worth) => new(worth.Topic.Name, worth.Minutes, worth.ScoreGain, worth.PassGain);
}
