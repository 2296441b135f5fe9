using System.Runtime.Intrinsics;

using Homestretch.Core.Learning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Planning.Optimising;

/// <summary>What blocks in given slots leave on exam day: <see cref="LearningAssumptions.Retained"/> with logarithms and past study worked out beforehand.</summary>
internal sealed class StudyEffort
{
    private readonly SlotTable slots;
    private readonly LearningAssumptions learning;
    private readonly double[] breadth;
    private readonly StudyEffect learn;
    private readonly StudyEffect practise;
    private readonly StudyEffect review;
    private readonly PastStudy[] past;
    private readonly Band[] bands;

    /// <param name="slots">The calendar.</param>
    /// <param name="learning">The law of retention.</param>
    /// <param name="breadth">Each topic's breadth factor.</param>
    public StudyEffort(SlotTable slots, LearningAssumptions learning, double[] breadth)
    {
        this.slots = slots;
        this.learning = learning;
        this.breadth = breadth;
        learn = learning.Effect(BlockPurpose.Learn.Kind());
        practise = learning.Effect(BlockPurpose.Practise.Kind());
        review = learning.Effect(BlockPurpose.Review.Kind());
        past = new PastStudy[breadth.Length];
        bands = new Band[breadth.Length];
    }

    /// <summary>Takes up a person.</summary>
    /// <param name="topic">Index of a topic.</param>
    /// <param name="band">Where the person stands on it: decides how many of its blocks teach.</param>
    /// <param name="study">Past study of it, earliest first.</param>
    public void Load(int topic, Band band, ReadOnlySpan<StudyMoment> study)
    {
        bands[topic] = band;
        past[topic] = default;
        if (study.IsEmpty)
        {
            return;
        }

        Retained[] moments = new Retained[study.Length];
        for (int i = 0; i < study.Length; i++)
        {
            StudyEffect effect = learning.Effect(study[i].Kind);
            moments[i] = new Retained(effect.Gain * study[i].Hours, effect.Forgetting * Math.Log(1 + ((slots.ExamDay - study[i].Day) / learning.RetentionScaleDays)));
        }

        past[topic] = new PastStudy(moments, learning.SpacedDays(study, slots.ExamDay), study[^1].Day, PastBlocks.Of(study));
    }

    /// <summary>Whether the person has studied the topic before the plan begins.</summary>
    public bool IsMet(int topic) => past[topic].Moments is not null;

    /// <summary>Hours that count on exam day on a topic of average size.</summary>
    /// <param name="topic">Index of a topic.</param>
    /// <param name="own">Its slots in time order.</param>
    public double Of(int topic, ReadOnlySpan<int> own)
    {
        PastStudy before = past[topic];
        double spaced = before.SpacedDays;
        int last = before.LastDay;
        int blocks = 0;
        foreach (int slot in own)
        {
            int day = slots.Day[slot];
            spaced += spaced == 0 ? 1 : learning.SpacedDay(day - last);
            last = day;
            blocks += slots.IsStudy[slot] ? 1 : 0;
        }

        double exponent = -learning.RetentionExponent / Slowing(spaced);
        double hours = 0;
        if (before.Moments is { } moments)
        {
            foreach (Retained moment in moments)
            {
                hours += moment.Hours * Math.Exp(exponent * moment.Forgotten);
            }
        }

        // Four blocks at a time: their shares of what is retained are the costly part.
        Span<double> gains = stackalloc double[4];
        Span<double> forgotten = stackalloc double[4];
        int teaching = BlockPurposes.Teaching(blocks, bands[topic], before.Blocks);
        Vector256<double> left = Vector256<double>.Zero;
        for (int i = 0; i < own.Length; i += 4)
        {
            gains.Clear();
            for (int j = i; j < Math.Min(i + 4, own.Length); j++)
            {
                int slot = own[j];
                StudyEffect effect = slots.OnlyLight || !slots.IsStudy[slot] ? review : teaching-- > 0 ? learn : practise;
                gains[j - i] = effect.Gain * slots.Hours[slot];
                forgotten[j - i] = effect.Forgetting * slots.LogAge[slot];
            }

            left += Vector256.Create<double>(gains) * Vector256.Exp(exponent * Vector256.Create<double>(forgotten));
        }

        hours += Vector256.Sum(left);
        return breadth[topic] * hours;
    }

    // Spaced days to the power by which they slow forgetting.
    private double Slowing(double spacedDays)
    {
        double days = Math.Max(1, spacedDays);
        return learning.Spacing == 0.5 ? Math.Sqrt(days) : Math.Pow(days, learning.Spacing);
    }

    private readonly record struct Retained(double Hours, double Forgotten);

    private readonly record struct PastStudy(Retained[]? Moments, double SpacedDays, int LastDay, PastBlocks Blocks);
}
