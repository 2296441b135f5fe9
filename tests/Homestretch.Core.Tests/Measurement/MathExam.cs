using Homestretch.Core.Measurement;
using Homestretch.Core.Tests.Reference;

namespace Homestretch.Core.Tests.Measurement;

/// <summary>A university mathematics exam, 729 students, 13 items: MathExam14W of R's psychotools 0.7-2 (GPL-2 | GPL-3).</summary>
internal static class MathExam
{
    public static string[] Items { get; } = ["quad", "deriv", "elasticity", "integral", "interest", "annuity", "payflow", "matrix", "planning", "equations", "hesse", "implicit", "lagrange"];

    public static ResponseMatrix Whole { get; } = Read((_, _) => true);

    /// <summary>As if every second student, from the first, had been given only the first nine items and the others only the last nine.</summary>
    public static ResponseMatrix Design { get; } = Read((row, item) => row % 2 == 0 ? item < 9 : item >= 4);

    public static ResponseMatrix Of(string name) => name switch { "lsat6" => Lsat6.Data, "mathexam" => Whole, _ => Design };

    private static ResponseMatrix Read(Func<int, int, bool> given)
        => ResponseMatrix.Create(
            [.. Items],
            ReferenceTable.Rows("real/math-exam-14w.csv").SelectMany((row, r) => row.Select((cell, j) => !given(r, j) ? Answer.Missing : cell == "1" ? Answer.Right : Answer.Wrong)).ToArray());
}
