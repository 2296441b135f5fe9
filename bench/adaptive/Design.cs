namespace Homestretch.Adaptive;

/// <summary>How a diagnostic of the study gets its items.</summary>
public enum Design
{
    /// <summary>A fixed form: items drawn at random in the blueprint's proportions, the same for all people of a form.</summary>
    RandomForm,

    /// <summary>One fixed form for all, chosen as the best set for somebody of whom nothing is known.</summary>
    BestForm,

    /// <summary>Item by item, always the one that tells most.</summary>
    AdaptiveFree,

    /// <summary>Item by item with the documented rules: blueprint, and a draw among the best.</summary>
    Adaptive,

    /// <summary>The same with the limit on exposure, people sitting it one after another in rooms of 20.</summary>
    AdaptiveRoom,
}
