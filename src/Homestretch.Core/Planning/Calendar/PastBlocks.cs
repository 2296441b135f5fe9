using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;

namespace Homestretch.Core.Planning.Calendar;

/// <summary>Study of one topic so far, counted in blocks; light review does not count.</summary>
/// <param name="All">Blocks in all.</param>
/// <param name="Taught">Those of them that taught.</param>
public readonly record struct PastBlocks(int All, int Taught)
{
    // A longer session is as good as several blocks of this length.
    private const double UsualHours = 0.75;

    /// <summary>Counts sessions, each as one block or more.</summary>
    public static PastBlocks Of(ReadOnlySpan<StudyMoment> study)
    {
        int all = 0;
        int taught = 0;
        foreach (StudyMoment moment in study)
        {
            int blocks = moment.Kind == StudyKind.Review ? 0 : Math.Max(1, (int)Math.Round(moment.Hours / UsualHours));
            all += blocks;
            taught += moment.Kind is StudyKind.Teaching or StudyKind.WorkedExamples ? blocks : 0;
        }

        return new(all, taught);
    }
}
