using System.Globalization;

namespace Homestretch.Load;

/// <summary>What was asked for on the command line.</summary>
/// <param name="Server">The published program.</param>
/// <param name="Candidates">Candidates stored.</param>
/// <param name="Rate">Requests a second.</param>
/// <param name="Length">How long load is offered.</param>
/// <param name="Soak">Whether memory is watched.</param>
/// <param name="Folder">The data folder; null for a temporary one.</param>
internal sealed record LoadOptions(string Server, int Candidates, double Rate, TimeSpan Length, bool Soak, string? Folder)
{
    /// <summary>Reads them; null and a sentence where they make no sense.</summary>
    public static LoadOptions? Read(string[] args, out string problem)
    {
        LoadOptions options = new("", 10_000, 5, TimeSpan.FromSeconds(60), false, null);
        problem = "";
        for (int i = 0; i < args.Length; i += 2)
        {
            string? value = i + 1 < args.Length ? args[i + 1] : null;
            bool isNumber = double.TryParse(value, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double number) && number > 0;
            LoadOptions? with = args[i] switch
            {
                "--server" when value is not null => options with { Server = value },
                "--keep" when value is not null => options with { Folder = Path.GetFullPath(value) },
                "--candidates" when isNumber => options with { Candidates = (int)number },
                "--rate" when isNumber => options with { Rate = number },
                "--seconds" when isNumber => options with { Length = TimeSpan.FromSeconds(number) },
                "--soak" when isNumber => options with { Length = TimeSpan.FromMinutes(number), Soak = true },
                _ => null,
            };
            if (with is null)
            {
                problem = $"'{args[i]} {value}' is not understood; give --candidates, --rate, --seconds or --soak with a number above 0, or --keep with a folder.";
                return null;
            }

            options = with;
        }

        return options;
    }
}
