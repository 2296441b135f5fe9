using System.Threading.Channels;

namespace Homestretch.Web.Candidates;

/// <summary>Makes plans one after the other while pages go on being served. What is still waiting when the program stops is let go.</summary>
/// <param name="log">Takes what went wrong.</param>
public sealed partial class PlanBacklog(ILogger<PlanBacklog> log) : BackgroundService
{
    private readonly Channel<(string CaseKey, Func<CancellationToken, Task> Work)> _waiting
        = Channel.CreateUnbounded<(string, Func<CancellationToken, Task>)>(new UnboundedChannelOptions { SingleReader = true });

    /// <summary>Puts work at the end.</summary>
    /// <param name="caseKey">The case it is about.</param>
    /// <param name="work">Makes its plan; what it throws is logged and keeps no other case from its plan.</param>
    public void Add(string caseKey, Func<CancellationToken, Task> work) => _waiting.Writer.TryWrite((caseKey, work));

    /// <inheritdoc/>
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await foreach ((string caseKey, Func<CancellationToken, Task> work) in _waiting.Reader.ReadAllAsync(stoppingToken))
        {
            try
            {
                await work(stoppingToken);
            }
#pragma warning disable CA1031 // One case that fails must not keep the others from their plans.
            catch (Exception e) when (e is not OperationCanceledException)
#pragma warning restore CA1031
            {
                NotPlanned(log, caseKey, e);
            }
        }
    }

    [LoggerMessage(LogLevel.Error, "The plan of the case {CaseKey} could not be made.")]
    private static partial void NotPlanned(ILogger logger, string caseKey, Exception e);
}
