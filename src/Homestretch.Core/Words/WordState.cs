namespace Homestretch.Core.Words;

/// <summary>What is to happen with a word.</summary>
public enum WordState
{
    /// <summary>It is to be recalled today.</summary>
    Today,

    /// <summary>It has been recalled today; nothing more today.</summary>
    DoneToday,

    /// <summary>It comes on a later day, when recall is worth more than now.</summary>
    Later,

    /// <summary>It is known so surely that another recall is not worth its time.</summary>
    Sure,

    /// <summary>Recall would add to it, but the time goes to words where it adds more.</summary>
    NoRoom,

    /// <summary>Another recall would hardly add anything, though the word is not sure: it does not stick.</summary>
    HardlySticks,

    /// <summary>It has never been recalled, and the exam is tomorrow.</summary>
    TooLate,

    /// <summary>There is no definition yet.</summary>
    LacksDefinition,
}
