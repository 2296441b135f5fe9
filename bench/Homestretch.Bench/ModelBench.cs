using System.Collections.Immutable;

using BenchmarkDotNet.Attributes;

using Homestretch.Core.Forecasting;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

namespace Homestretch.Bench;

/// <summary>The chain on the large case: standing, forecast (to stay under 1 ms), worth, slots, plan (to stay under 50 ms); a plan for the long case (to stay under 1 s).</summary>
[MemoryDiagnoser]
public class ModelBench
{
    private CandidateStanding _standing = null!;
    private CandidateStanding _long = null!;

    [GlobalSetup]
    public void Setup()
    {
        _standing = Standing();
        _long = StandingCalculator.Calculate(LongCase.Exam, LongCase.Attempts, LargeCase.From.Date);
        int slots = Slots().Slots.Length;
        if (LargeCase.Exam.ScoredItems != 150 || LargeCase.Exam.Topics.Length != 12 || slots < 60)
        {
            throw new InvalidOperationException($"The case is not the one that is promised: {LargeCase.Exam.ScoredItems} items, {LargeCase.Exam.Topics.Length} topics, {slots} slots.");
        }
    }

    [Benchmark]
    public CandidateStanding Standing() => StandingCalculator.Calculate(LargeCase.Exam, LargeCase.Attempts, LargeCase.From.Date);

    [Benchmark]
    public Forecast Forecast() => ForecastCalculator.Calculate(_standing);

    [Benchmark]
    public ImmutableArray<TopicWorth> Worth() => WorthCalculator.NextMinutes(_standing);

    [Benchmark]
    public SlotSearch Slots() => SlotFinder.Find(LargeCase.Free, [], LargeCase.From, LargeCase.ExamDay);

    [Benchmark]
    public StudyPlan Plan() => Planner.Plan(_standing, LargeCase.Free, [], LargeCase.From, LargeCase.ExamDay);

    [Benchmark]
    public StudyPlan LongPlan() => Planner.Plan(_long, LargeCase.Free, [], LargeCase.From, LongCase.ExamDay);
}
