using Homestretch.Files.Yaml;

using NodaTime;

namespace Homestretch.Files.FreeTimes;

/// <summary>Finds time zones by their IANA names.</summary>
public static class ZoneNames
{
    /// <summary>What is accepted, for messages.</summary>
    internal const string Accepted = "the name of a time zone, such as Europe/London";

    /// <summary>The zone of a name; null, and what is wrong, where there is none.</summary>
    public static DateTimeZone? Find(string name, out string? problem)
    {
        ArgumentNullException.ThrowIfNull(name);

        // Only listed names: the provider would also take made-up offsets such as UTC+25.
        IDateTimeZoneProvider zones = DateTimeZoneProviders.Tzdb;
        if (zones.Ids.Contains(name, StringComparer.Ordinal))
        {
            problem = null;
            return zones[name];
        }

        string town = name.Replace(' ', '_');
        string? near = zones.Ids.FirstOrDefault(id => id.EndsWith("/" + town, StringComparison.OrdinalIgnoreCase)) ?? NearestName.Suggest(name, zones.Ids);
        problem = $"{YamlProblems.Show(name)} is not a known time zone; {(near is null ? "give" : $"did you mean {near}? Give")} {Accepted}.";
        return null;
    }
}
