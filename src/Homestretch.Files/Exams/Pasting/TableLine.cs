namespace Homestretch.Files.Exams.Pasting;

/// <summary>A line while the table is being made out.</summary>
internal sealed class TableLine
{
    /// <summary>Its number, from 1.</summary>
    public required int Number { get; init; }

    /// <summary>The line as it is shown again.</summary>
    public required string Shown { get; init; }

    /// <summary>How far it is set in, in spaces.</summary>
    public required int Indent { get; init; }

    /// <summary>Its number or bullet.</summary>
    public required LineMarker Marker { get; init; }

    /// <summary>Its figures.</summary>
    public required FoundWeights Found { get; set; }

    /// <summary>Its name.</summary>
    public required string Name { get; set; }

    /// <summary>What it was taken for; null while it may still be a topic.</summary>
    public PastedUse? Use { get; set; }

    /// <summary>Its level, from 0; only where it may be a topic.</summary>
    public int Level { get; set; }

    /// <summary>The weight it was given.</summary>
    public PastedWeight? Weight { get; set; }

    /// <summary>What there is to say about it.</summary>
    public string Remark { get; private set; } = "";

    /// <summary>Says one thing more about it.</summary>
    public void Say(string remark) => Remark = $"{Remark} {remark}".Trim();

    /// <summary>Leaves it out.</summary>
    public void LeaveOut(string why)
    {
        Use = PastedUse.NotUsed;
        Say(why);
    }
}
