using System.Collections.Concurrent;
using System.Threading.Channels;

using Homestretch.Web.Candidates;

namespace Homestretch.Web.Exams;

/// <summary>Makes the plans of many people anew, one after the other, while pages go on being served.</summary>
/// <param name="keeper">Makes plans.</param>
/// <param name="log">Takes what went wrong.</param>
public sealed partial class PlansAnew(PlanKeeper keeper, ILogger<PlansAnew> log) : BackgroundService
{
    // A small room's plans are there when the page comes back.
    private const int AtOnce = 5;

    private readonly Channel<(string ExamKey, string CaseKey, string Why)> _waiting = Channel.CreateUnbounded<(string, string, string)>();
    private readonly ConcurrentDictionary<string, int> _left = new();

    /// <summary>Plans of an exam's cases that are still to be made.</summary>
    public int Left(string examKey) => _left.GetValueOrDefault(examKey);

    /// <summary>Makes the plans of some cases anew: a few at once, the others later.</summary>
    /// <param name="examKey">Their exam.</param>
    /// <param name="cases">Their keys.</param>
    /// <param name="why">Why, in one sentence for the candidates.</param>
    /// <param name="cancellation">Stops those that are made at once.</param>
    public async Task RefreshAsync(string examKey, IReadOnlyList<string> cases, string why, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(cases);
        foreach (string key in cases.Skip(AtOnce))
        {
            _left.AddOrUpdate(examKey, 1, (_, left) => left + 1);
            await _waiting.Writer.WriteAsync((examKey, key, why), cancellation);
        }

        foreach (string key in cases.Take(AtOnce))
        {
            await keeper.RefreshAsync(key, why, cancellation);
        }
    }

    /// <inheritdoc/>
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await foreach ((string examKey, string caseKey, string why) in _waiting.Reader.ReadAllAsync(stoppingToken))
        {
            try
            {
                await keeper.RefreshAsync(caseKey, why, stoppingToken);
            }
#pragma warning disable CA1031 // One case that fails must not keep the others from their plans.
            catch (Exception e) when (e is not OperationCanceledException)
#pragma warning restore CA1031
            {
                NoteFailure(log, caseKey, e);
            }
            finally
            {
                _left.AddOrUpdate(examKey, 0, (_, left) => Math.Max(0, left - 1));
            }
        }
    }

    [LoggerMessage(LogLevel.Error, "The plan of case {CaseKey} could not be made anew.")]
    private static partial void NoteFailure(ILogger log, string caseKey, Exception failure);
}
