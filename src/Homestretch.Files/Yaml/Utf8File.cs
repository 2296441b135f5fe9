using System.Text;

namespace Homestretch.Files.Yaml;

/// <summary>Reads a file that must be UTF-8 text.</summary>
internal static class Utf8File
{
    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>The text without a byte order mark, or null with the problem noted.</summary>
    public static string? Read(YamlProblems problems) => problems.ReadBytes() is { } bytes ? Decode(bytes, problems) : null;

    private static string? Decode(ReadOnlySpan<byte> bytes, YamlProblems problems)
    {
        if (bytes.Length > YamlText.LongestFile)
        {
            problems.Add(1, YamlText.TooLong);
            return null;
        }

        if (bytes is [0xFF, 0xFE, ..] or [0xFE, 0xFF, ..])
        {
            problems.Add(1, "The file is UTF-16 text; save it as UTF-8.");
            return null;
        }

        if (bytes is [0xEF, 0xBB, 0xBF, ..])
        {
            bytes = bytes[3..];
        }

        try
        {
            return Strict.GetString(bytes);
        }
        catch (DecoderFallbackException e)
        {
            int at = Math.Clamp(e.Index, 0, bytes.Length);
            int line = 1 + bytes[..at].Count((byte)'\n');
            string value = e.BytesUnknown is { Length: > 0 } unknown ? $" (byte {Convert.ToHexString(unknown[..1])})" : "";
            problems.Add(line, $"The file is not UTF-8 text here{value}; save it as UTF-8.");
            return null;
        }
    }
}
