namespace Homestretch.Files.Documents;

/// <summary>How much easier a test is than the exam.</summary>
/// <param name="Write">What to write in the column 'against exam' of the evidence.</param>
/// <param name="Points">The difference as a share of items in the middle of the scale; above 0 where the test is easier.</param>
/// <param name="PointsSd">Its standard deviation as a share of items.</param>
/// <param name="Logits">The difference in logits.</param>
/// <param name="Sd">Its standard deviation in logits.</param>
public sealed record FormFields(string Write, double Points, double PointsSd, double Logits, double Sd);
