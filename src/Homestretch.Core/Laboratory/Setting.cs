namespace Homestretch.Core.Laboratory;

/// <summary>What one candidate prepares for and when there is time.</summary>
/// <param name="World">The exam.</param>
/// <param name="Time">The days until then.</param>
internal sealed record Setting(ExamWorld World, StudyTime Time);
