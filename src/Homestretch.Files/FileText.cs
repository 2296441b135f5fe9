using System.Text;

using UtfUnknown;

namespace Homestretch.Files;

/// <summary>Reads files that people export from spreadsheets and calendars, whatever their encoding.</summary>
internal static class FileText
{
    /// <summary>Larger files are refused.</summary>
    public const int MostBytes = 20 * 1024 * 1024;

    // The detector needs some text to be sure of anything; below this the Western guess is the better one.
    private const float SureEnough = 0.8f;

    private static readonly Encoding StrictUtf8 = new UTF8Encoding(false, throwOnInvalidBytes: true);

    private static readonly System.Buffers.SearchValues<char> NotText = System.Buffers.SearchValues.Create(
        "\0\u0001\u0002\u0003\u0004\u0005\u0006\u0007\u0008\u000e\u000f\u0010\u0011\u0012\u0013\u0014\u0015\u0016\u0017\u0018\u0019\u001c\u001d\u001e\u001f\ufffe\uffff");

    static FileText() => Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);

    /// <summary>The bytes of a file, or null and a problem when it cannot be read or is too large.</summary>
    public static byte[]? ReadBytes(string path, ProblemList problems)
    {
        try
        {
            if (Directory.Exists(path))
            {
                problems.Add(path, 1, "This is a folder; give the file inside it.");
                return null;
            }

            using FileStream stream = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            using MemoryStream copy = new();
            byte[] buffer = new byte[81920];
            int read;
            while ((read = stream.Read(buffer)) > 0)
            {
                copy.Write(buffer, 0, read);
                if (copy.Length > MostBytes)
                {
                    problems.Add(path, 1, TooLarge);
                    return null;
                }
            }

            return copy.ToArray();
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            problems.Add(path, 1, "There is no such file.");
        }
        catch (Exception e) when (e is UnauthorizedAccessException or IOException or ArgumentException or NotSupportedException)
        {
            problems.Add(path, 1, "The file cannot be read; check its name and that you may open it.");
        }

        return null;
    }

    public static string TooLarge => $"The file is larger than {MostBytes / (1024 * 1024)} MB; leave out what does not belong to it.";

    /// <summary>The text without its byte order mark, or null and a problem when the bytes are no text.</summary>
    /// <remarks>A byte order mark decides; then UTF-8 if the bytes are valid UTF-8; then UTF-16 if every other byte is mostly zero;
    /// then what the detector is sure of; then Windows-1252, which spreadsheets write where the detector says ISO 8859-1 or 8859-15.</remarks>
    public static string? Decode(string file, ReadOnlyMemory<byte> bytes, ProblemList problems)
    {
        if (bytes.Length > MostBytes)
        {
            problems.Add(file, 1, TooLarge);
            return null;
        }

        ReadOnlySpan<byte> span = bytes.Span;
        if (span.StartsWith("PK\x03\x04"u8) || span.StartsWith((ReadOnlySpan<byte>)[0xD0, 0xCF, 0x11, 0xE0]))
        {
            problems.Add(file, 1, "This is a spreadsheet or an archive, not a text file; save the sheet as CSV, or unpack the archive, and give that file.");
            return null;
        }

        string? text = Guess(span);
        if (text is null)
        {
            problems.Add(file, 1, "The text cannot be decoded; save the file as UTF-8 and try again.");
            return null;
        }

        int odd = text.AsSpan().IndexOfAny(NotText);
        if (odd >= 0)
        {
            int line = 1 + text.AsSpan(0, odd).Count('\n');
            problems.Add(file, line, "This is not a text file; save it as text in UTF-8 and try again.");
            return null;
        }

        // One way to write a letter with an accent, so that names compare equal wherever they were typed.
        return text.Normalize(NormalizationForm.FormC);
    }

    private static string? Guess(ReadOnlySpan<byte> bytes)
    {
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF]))
        {
            return Strict(StrictUtf8, bytes[3..]);
        }

        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE, 0, 0]))
        {
            return Strict(new UTF32Encoding(false, false, true), bytes[4..]);
        }

        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]))
        {
            return Strict(new UnicodeEncoding(false, false, true), bytes[2..]);
        }

        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]))
        {
            return Strict(new UnicodeEncoding(true, false, true), bytes[2..]);
        }

        if (bytes.Contains((byte)0))
        {
            return GuessUtf16(bytes);
        }

        if (Strict(StrictUtf8, bytes) is { } utf8)
        {
            return utf8;
        }

        DetectionDetail? detected = CharsetDetector.DetectFromBytes(bytes.ToArray()).Detected;
        bool western = detected?.EncodingName is "iso-8859-1" or "iso-8859-15" or "windows-1252";
        if (!western && detected is { Encoding: { } encoding, Confidence: >= SureEnough } && Strict(encoding, bytes) is { } text)
        {
            return text;
        }

        // Five bytes have no letter in Windows-1252, but .NET passes them through as control characters.
        ReadOnlySpan<byte> unassigned = [0x81, 0x8D, 0x8F, 0x90, 0x9D];
        return bytes.IndexOfAny(unassigned) >= 0 ? null : Strict(Encoding.GetEncoding(1252), bytes);
    }

    private static string? GuessUtf16(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length % 2 != 0)
        {
            return null;
        }

        int evenZeros = 0;
        int oddZeros = 0;
        for (int i = 0; i < bytes.Length; i++)
        {
            if (bytes[i] == 0)
            {
                _ = i % 2 == 0 ? evenZeros++ : oddZeros++;
            }
        }

        // In text of Western letters the high byte is zero nearly everywhere.
        int pairs = bytes.Length / 2;
        return oddZeros > pairs * 0.6 && evenZeros == 0 ? Strict(new UnicodeEncoding(false, false, true), bytes)
            : evenZeros > pairs * 0.6 && oddZeros == 0 ? Strict(new UnicodeEncoding(true, false, true), bytes)
            : null;
    }

    private static string? Strict(Encoding encoding, ReadOnlySpan<byte> bytes)
    {
        Encoding strict = Encoding.GetEncoding(encoding.CodePage, EncoderFallback.ExceptionFallback, DecoderFallback.ExceptionFallback);
        try
        {
            return strict.GetString(bytes);
        }
        catch (DecoderFallbackException)
        {
            return null;
        }
    }
}
