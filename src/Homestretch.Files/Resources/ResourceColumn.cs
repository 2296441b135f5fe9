namespace Homestretch.Files.Resources;

/// <summary>Columns of a catalogue of resources.</summary>
internal enum ResourceColumn
{
    Title,
    Kind,
    Topics,
    Minutes,
    Edition,
    Where,
}
