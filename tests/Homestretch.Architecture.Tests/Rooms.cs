using ArchUnitNET.Domain;

namespace Homestretch.Architecture.Tests;

/// <summary>The rooms of the model, one per folder, from left to right: each depends only on itself and on rooms to its left.</summary>
internal static class Rooms
{
    // Words stands beside Standing: it shares what is assumed about forgetting and knows nothing of items and topics.
    // Measurement stands beside Standing and shares its item curves; Standing knows nothing of how items are calibrated.
    private static readonly Dictionary<string, int> _places = new()
    {
        ["Blueprints"] = 0,
        ["Evidence"] = 1,
        ["Learning"] = 2,
        ["Standing"] = 3,
        ["Words"] = 3,
        ["Measurement"] = 4,
        ["Forecasting"] = 5,
        ["Calibration"] = 6,
        ["Planning"] = 7,
        ["Deciding"] = 8,
        ["AdaptiveTesting"] = 8,
        ["Rooms"] = 9,
        ["Laboratory"] = 10,
    };

    /// <summary>Every dependency that points to the right, and every type outside the rooms.</summary>
    /// <param name="types">The types to judge.</param>
    /// <param name="root">Namespace that holds the rooms.</param>
    public static IEnumerable<string> Violations(IEnumerable<IType> types, string root)
    {
        foreach (IType type in types)
        {
            if (RoomOf(type, root) is not { } room)
            {
                continue;
            }

            if (!_places.TryGetValue(room, out int place))
            {
                yield return $"{type.FullName} lies in no known room";
                continue;
            }

            foreach (IType target in type.Dependencies.Select(d => d.Target).Distinct())
            {
                if (RoomOf(target, root) is { } other && other != room && (!_places.TryGetValue(other, out int otherPlace) || otherPlace >= place))
                {
                    yield return $"{type.FullName} uses {target.FullName}, which is not to its left";
                }
            }
        }
    }

    private static string? RoomOf(IType type, string root)
        => type.FullName.StartsWith(root + ".", StringComparison.Ordinal) ? type.FullName[(root.Length + 1)..].Split('.')[0] : null;
}
