namespace Homestretch.Store;

/// <summary>How something came into the store.</summary>
public enum Origin
{
    /// <summary>Read from a file; the file and, for a row, the line are kept with it.</summary>
    File,

    /// <summary>Entered by the coach.</summary>
    Coach,

    /// <summary>Entered on the candidate's own pages.</summary>
    Candidate,

    /// <summary>Worked out by the program.</summary>
    Program,
}
