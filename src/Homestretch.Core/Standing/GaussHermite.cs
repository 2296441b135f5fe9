namespace Homestretch.Core.Standing;

/// <summary>Gauss-Hermite quadrature for expectations over a normal variable.</summary>
/// <remarks>Nodes are the roots of the Hermite polynomials He_n, found by Newton steps on the three-term recurrence
/// (Abramowitz &amp; Stegun 25.4.46, rescaled to the standard normal density).</remarks>
internal static class GaussHermite
{
    /// <summary>A rule with <paramref name="count"/> nodes for a normal variable with mean 0 and standard deviation <paramref name="sd"/>; one node when the sd is 0.</summary>
    public static Node[] Normal(double sd, int count)
    {
        if (sd == 0)
        {
            return [new Node(0, 1)];
        }

        Node[] nodes = new Node[count];
        double root = 0;
        for (int i = 0; i < (count + 1) / 2; i++)
        {
            root = i switch
            {
                // Starting values for the largest roots of H_n (physicists'), then extrapolation.
                0 => Math.Sqrt((2 * count) + 1) - (1.85575 * Math.Pow((2 * count) + 1, -1.0 / 6)),
                1 => root - (1.14 * Math.Pow(count, 0.426) / root),
                2 => (1.86 * root) - (0.86 * nodes[0].At),
                3 => (1.91 * root) - (0.91 * nodes[1].At),
                _ => (2 * root) - nodes[i - 2].At,
            };
            double slope = 0;
            for (int iteration = 0; iteration < 100; iteration++)
            {
                double previous = 0;
                double value = Math.Pow(Math.PI, -0.25);
                for (int n = 0; n < count; n++)
                {
                    (previous, value) = (value, (root * Math.Sqrt(2.0 / (n + 1)) * value) - (Math.Sqrt((double)n / (n + 1)) * previous));
                }

                slope = Math.Sqrt(2.0 * count) * previous;
                double step = value / slope;
                root -= step;
                if (Math.Abs(step) < 1e-15)
                {
                    break;
                }
            }

            nodes[i] = new Node(root, 2 / (slope * slope) / Math.Sqrt(Math.PI));
            nodes[count - 1 - i] = new Node(-root, nodes[i].Weight);
        }

        double total = nodes.Sum(n => n.Weight);
        return Array.ConvertAll(nodes, n => new Node(n.At * Math.Sqrt(2) * sd, n.Weight / total));
    }
}
