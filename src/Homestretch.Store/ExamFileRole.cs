namespace Homestretch.Store;

/// <summary>What a file beside an exam's blueprint is for.</summary>
public enum ExamFileRole
{
    /// <summary>What there is to study from (docs/resources.md); the latest counts.</summary>
    Resources,

    /// <summary>Items to practise on (docs/quiz-items.md); all count.</summary>
    QuizItems,
}
