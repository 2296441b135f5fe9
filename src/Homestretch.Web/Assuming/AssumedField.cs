namespace Homestretch.Web.Assuming;

/// <summary>One field of the what-if form.</summary>
/// <param name="Name">Its name in the address.</param>
/// <param name="Label">What it asks.</param>
/// <param name="Text">What stands in it: what the person typed, also where that cannot be used.</param>
/// <param name="OwnText">What the case's own files say.</param>
/// <param name="Unit">What it counts.</param>
/// <param name="Least">Smallest accepted value, as text for the form.</param>
/// <param name="Most">Largest accepted value, as text for the form.</param>
/// <param name="Step">How far one key press goes.</param>
/// <param name="Problem">Why what was typed cannot be used and what can; null where it can.</param>
public sealed record AssumedField(
    string Name, string Label, string Text, string OwnText, string Unit, string Least, string Most, string Step, string? Problem)
{
    /// <summary>Whether the person has changed it to something usable.</summary>
    public bool Changed => Problem is null && Text != OwnText;
}
