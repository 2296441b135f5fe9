namespace Homestretch.Store;

/// <summary>Tells two states of a case apart without reading it.</summary>
/// <param name="Changes">How often anything in the case has changed.</param>
/// <param name="ExamVersion">The version of the exam that counts.</param>
/// <param name="Resources">The catalogue of resources that counts; 0 where there is none.</param>
public readonly record struct CaseVersion(long Changes, long ExamVersion, long Resources);
