namespace Homestretch.Core.Measurement;

/// <summary>Per item and node of ability, how many right and wrong answers are expected there given the data (Bock &amp; Aitkin 1981).</summary>
internal sealed class ExpectedCounts
{
    private readonly double[] right;
    private readonly double[] wrong;

    public ExpectedCounts(int items, int nodes)
    {
        Nodes = nodes;
        right = new double[items * nodes];
        wrong = new double[items * nodes];
    }

    public int Nodes { get; }

    public Span<double> Right(int item) => right.AsSpan(item * Nodes, Nodes);

    public Span<double> Wrong(int item) => wrong.AsSpan(item * Nodes, Nodes);

    public void Clear()
    {
        Array.Clear(right);
        Array.Clear(wrong);
    }
}
