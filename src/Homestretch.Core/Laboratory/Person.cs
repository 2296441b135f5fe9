namespace Homestretch.Core.Laboratory;

/// <summary>A simulated candidate as nature made them: what no policy but the oracle is told.</summary>
/// <param name="Abilities">Ability on each topic on the first day, in logits.</param>
/// <param name="Rate">Logits per hour of study on an average topic.</param>
internal sealed record Person(double[] Abilities, double Rate)
{
    public static Person Draw(Population population, int topics, long seed, int candidate, int part)
    {
        RandomSequence random = new(seed, Draws.Person, candidate, part);
        double overall = population.MeanAbility + (population.AbilitySd * random.Normal());
        double rate = population.RatePerHour * Math.Exp(population.RateLogSd * random.Normal());
        double[] abilities = new double[topics];
        for (int t = 0; t < topics; t++)
        {
            abilities[t] = overall + (population.TopicSd * random.Normal());
        }

        return new Person(abilities, rate);
    }
}
