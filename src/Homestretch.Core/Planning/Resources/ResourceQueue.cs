using System.Collections.Immutable;

namespace Homestretch.Core.Planning.Resources;

/// <summary>Resources of one kind on one topic, worked through one after the other.</summary>
internal sealed class ResourceQueue(string topic, IEnumerable<StudyResource> resources)
{
    private readonly StudyResource[] resources = [.. resources];
    private int at;
    private int minute;

    /// <summary>The next parts, of so many minutes together where there is that much; and whether there was. A resource of unknown length fills whatever time is left, and
    /// those after it are never reached.</summary>
    public (ImmutableArray<ResourcePart> Parts, bool IsWhole) Take(int minutes)
    {
        ImmutableArray<ResourcePart>.Builder parts = ImmutableArray.CreateBuilder<ResourcePart>();
        while (minutes > 0 && at < resources.Length)
        {
            StudyResource resource = resources[at];
            if (resource.Minutes is not { } length)
            {
                parts.Add(new(resource, topic, null, null));
                return (parts.ToImmutable(), true);
            }

            int taken = Math.Min(minutes, length - minute);
            parts.Add(new(resource, topic, minute, minute + taken));
            minutes -= taken;
            minute += taken;
            if (minute == length)
            {
                at++;
                minute = 0;
            }
        }

        return (parts.ToImmutable(), minutes == 0);
    }
}
