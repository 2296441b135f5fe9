namespace Homestretch.Store;

/// <summary>Tells two states of a case apart without reading it.</summary>
/// <param name="Changes">How often anything in the case has changed.</param>
/// <param name="ExamVersion">The version of the exam that counts.</param>
public readonly record struct CaseVersion(long Changes, long ExamVersion);
