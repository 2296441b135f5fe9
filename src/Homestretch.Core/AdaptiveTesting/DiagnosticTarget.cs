namespace Homestretch.Core.AdaptiveTesting;

/// <summary>What the next items are to find out.</summary>
public enum DiagnosticTarget
{
    /// <summary>The pass chance.</summary>
    PassChance,

    /// <summary>The levels on the topics where study moves the pass chance.</summary>
    Bands,
}
