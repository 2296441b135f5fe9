using System.Text;
using System.Text.Json;

namespace Homestretch.Files.Yaml;

/// <summary>Reads JSON text into nodes that know their lines: the same nodes as YAML, of which JSON is a part.</summary>
internal static class JsonText
{
    private const int DeepestNesting = 20;

    /// <summary>The document's keys and values, or null with the problem noted.</summary>
    /// <param name="utf8">The whole file.</param>
    /// <param name="document">What kind of document it should be, for messages.</param>
    /// <param name="problems">Takes what is wrong.</param>
    public static YamlMap? ReadMap(ReadOnlySpan<byte> utf8, string document, YamlProblems problems)
    {
        utf8 = utf8.StartsWith((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF]) ? utf8[3..] : utf8;
        try
        {
            Utf8JsonReader reader = new(utf8, new JsonReaderOptions { MaxDepth = DeepestNesting });
            reader.Read();
            YamlNode root = ReadNode(ref reader, new Lines(utf8));
            while (reader.Read())
            {
                // Anything after the document is refused by the reader itself.
            }

            if (root is YamlMap map)
            {
                return map;
            }

            problems.Add(root.Line, $"The file is {root.Kind}; it must be {document}.");
        }
        catch (JsonException e)
        {
            problems.Add((int)(e.LineNumber ?? 0) + 1, $"This is not JSON, here or a little before; give {document}.");
        }
        catch (InvalidOperationException)
        {
            // Escapes that are half a character.
            problems.Add(1, $"A text in the file holds half a character; give {document}.");
        }

        return null;
    }

    private static YamlNode ReadNode(ref Utf8JsonReader reader, Lines lines)
    {
        int line = lines.At(reader.TokenStartIndex);
        switch (reader.TokenType)
        {
            case JsonTokenType.StartObject:
                List<YamlEntry> entries = [];
                while (reader.Read() && reader.TokenType != JsonTokenType.EndObject)
                {
                    YamlScalar key = new(lines.At(reader.TokenStartIndex), reader.GetString()!, IsPlain: false);
                    reader.Read();
                    if (reader.TokenType != JsonTokenType.Null)
                    {
                        // In our documents a field without a value is null.
                        entries.Add(new YamlEntry(key, ReadNode(ref reader, lines)));
                    }
                }

                return new YamlMap(line, entries);
            case JsonTokenType.StartArray:
                List<YamlNode> items = [];
                while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
                {
                    items.Add(ReadNode(ref reader, lines));
                }

                return new YamlList(line, items);
            case JsonTokenType.String:
                return new YamlScalar(line, reader.GetString()!.Trim(), IsPlain: false);
            default:
                return new YamlScalar(line, Encoding.UTF8.GetString(reader.ValueSpan), IsPlain: true);
        }
    }

    // Line of a byte.
    private sealed class Lines
    {
        private readonly List<int> starts = [0];

        public Lines(ReadOnlySpan<byte> text)
        {
            for (int i = 0; i < text.Length; i++)
            {
                if (text[i] == (byte)'\n')
                {
                    starts.Add(i + 1);
                }
            }
        }

        public int At(long index) => starts.BinarySearch((int)index) is >= 0 and var exact ? exact + 1 : ~starts.BinarySearch((int)index);
    }
}
