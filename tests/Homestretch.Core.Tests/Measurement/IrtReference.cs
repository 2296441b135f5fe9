using Homestretch.Core.Tests.Reference;

namespace Homestretch.Core.Tests.Measurement;

/// <summary>Figures of R's psychotools, eRm and OpenMx on the same data; Reference/irt.R writes them.</summary>
internal static class IrtReference
{
    public static double LogLikelihood(string data, string method) => Values(data, method, "loglik").Single();

    public static double[] Values(string data, string method, string quantity)
        => [.. ReferenceTable.Rows("irt.csv").Where(r => r[0] == data && r[1] == method && r[2] == quantity).Select(r => ReferenceTable.Number(r[4]))];
}
