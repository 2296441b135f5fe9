using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace Homestretch.Files.Yaml;

/// <summary>Reads YAML text into nodes that know their lines.</summary>
/// <remarks>Built on the parser's events: the library's node model follows aliases without a limit and cannot name the line of
/// a repeated key. Anchors, aliases and tags are refused, nesting and size are limited, so no file can grow in memory.</remarks>
internal sealed class YamlText
{
    /// <summary>Bytes or characters that a file may have.</summary>
    public const int LongestFile = 500_000;

    /// <summary>What is said of a longer one.</summary>
    public const string TooLong = "The file is longer than 500 kB; a file of this kind is a few pages at most.";

    private const int DeepestNesting = 20;

    private const string Hint = "check the indentation, the spaces after colons and hyphens, and quotation marks and brackets";

    private readonly YamlProblems problems;
    private readonly Scanner scanner;
    private readonly Parser parser;
    private readonly HashSet<int> refusedLines = [];

    private YamlText(string text, YamlProblems problems)
    {
        this.problems = problems;
        scanner = new Scanner(new StringReader(text), skipComments: true);
        parser = new Parser(scanner);
    }

    /// <summary>The keys and values of the file's single document, or null with the problems noted.</summary>
    /// <param name="text">The whole file.</param>
    /// <param name="startsWith">A key the file usually starts with, for messages.</param>
    /// <param name="problems">Takes what is wrong.</param>
    public static YamlMap? ReadMap(string text, string startsWith, YamlProblems problems)
    {
        if (text.Length > LongestFile)
        {
            problems.Add(1, TooLong);
            return null;
        }

        text = text.StartsWith('\uFEFF') ? text[1..] : text;
        if (!CharactersAreFit(text, problems))
        {
            return null;
        }

        YamlNode? root;
        YamlText reader = new(text, problems);
        int before = problems.Count;
        try
        {
            root = reader.ReadDocument();
        }
        catch (YamlException e)
        {
            problems.Add((int)e.Start.Line, $"This is not valid YAML: {Decapitalise(e.Message)}; {Hint}.");
            return null;
        }
        catch (Exception e) when (e is InvalidOperationException or ArgumentException or IndexOutOfRangeException or InvalidCastException or FormatException or NullReferenceException)
        {
            // Some broken files, such as one with a bracket left open, trip the library itself instead of its own checks.
            problems.Add((int)reader.scanner.CurrentPosition.Line, $"This is not valid YAML, here or a little before; {Hint}.");
            return null;
        }

        if (problems.Count > before)
        {
            return null;
        }

        switch (root)
        {
            case YamlMap map:
                return map;
            case null or YamlScalar { IsEmpty: true }:
                problems.Add(1, $"The file is empty; it starts with a line such as '{startsWith}'.");
                return null;
            default:
                problems.Add(root.Line, $"The file is {root.Kind}; it must be a group of keys, starting with a line such as '{startsWith}'.");
                return null;
        }
    }

    private static bool CharactersAreFit(string text, YamlProblems problems)
    {
        int line = 1;
        bool indenting = true;
        bool tab = false;
        int before = problems.Count;
        for (int i = 0; i < text.Length; i++)
        {
            char c = text[i];
            if (c is '\n' or '\r')
            {
                line += c == '\r' && i + 1 < text.Length && text[i + 1] == '\n' ? 0 : 1;
                indenting = true;
                tab = false;
            }
            else if (c == '\t')
            {
                tab |= indenting;
            }
            else if (char.IsControl(c) && c != '\u0085')
            {
                problems.Add(line, $"There is a control character (code {(int)c}) in this line; remove it. If the file came from another program, export it as UTF-8 text.");
                return false;
            }
            else if (char.IsSurrogate(c) && !(char.IsHighSurrogate(c) && i + 1 < text.Length && char.IsLowSurrogate(text[i + 1])))
            {
                problems.Add(line, "There is half a character in this line; remove it and save the file as UTF-8.");
                return false;
            }
            else
            {
                i += char.IsHighSurrogate(c) ? 1 : 0;
                if (indenting && c != ' ')
                {
                    if (tab && c != '#')
                    {
                        problems.Add(line, "The line is indented with a tab; YAML wants spaces, two for each step.");
                    }

                    indenting = false;
                }
            }
        }

        return problems.Count == before;
    }

    private static string Decapitalise(string message)
    {
        message = message.Trim().TrimEnd('.');
        return message.Length > 1 && char.IsUpper(message[0]) && char.IsLower(message[1]) ? char.ToLowerInvariant(message[0]) + message[1..] : message;
    }

    private YamlNode? ReadDocument()
    {
        YamlNode? root = null;
        bool found = false;
        while (parser.MoveNext())
        {
            switch (parser.Current)
            {
                case DocumentStart start when found:
                    problems.Add((int)start.Start.Line, "A second YAML document starts here (after '---'); keep one per file.");
                    return null;
                case StreamStart or StreamEnd or DocumentStart or DocumentEnd:
                    break;
                default:
                    found = true;
                    root = ReadNode(1);
                    if (root is null)
                    {
                        return null;
                    }

                    break;
            }
        }

        return root;
    }

    // The parser stands on the node's first event; afterwards on its last. Null when reading must stop.
    private YamlNode? ReadNode(int depth)
    {
        ParsingEvent current = parser.Current!;
        int line = (int)current.Start.Line;
        if (depth > DeepestNesting)
        {
            problems.Add(line, $"Lists and keys are nested more than {DeepestNesting} deep; no file of this kind is.");
            return null;
        }

        switch (current)
        {
            case AnchorAlias alias:
                Refuse(line, $"The alias '*{alias.Value}' is not accepted; write the value out.");
                return new YamlScalar(line, "", IsPlain: true);
            case Scalar scalar:
                RefuseDecoration(scalar, line);
                return new YamlScalar(line, scalar.Value.Trim(), scalar.Style == ScalarStyle.Plain);
            case SequenceStart start:
                RefuseDecoration(start, line);
                return ReadList(line, depth);
            case MappingStart start:
                RefuseDecoration(start, line);
                return ReadMap(line, depth);
            default:
                problems.Add(line, $"This is not valid YAML; {Hint}.");
                return null;
        }
    }

    private YamlList? ReadList(int line, int depth)
    {
        List<YamlNode> items = [];
        while (Next() is not SequenceEnd)
        {
            if (ReadNode(depth + 1) is not { } item)
            {
                return null;
            }

            items.Add(item);
        }

        return new YamlList(line, items);
    }

    private YamlMap? ReadMap(int line, int depth)
    {
        List<YamlEntry> entries = [];
        while (Next() is not MappingEnd)
        {
            if (ReadNode(depth + 1) is not { } key)
            {
                return null;
            }

            Next();
            if (ReadNode(depth + 1) is not { } value)
            {
                return null;
            }

            if (key is YamlScalar name)
            {
                entries.Add(new YamlEntry(name, value));
            }
            else
            {
                Refuse(key.Line, $"{char.ToUpperInvariant(key.Kind[0])}{key.Kind[1..]} is used as a key; a key is a single word.");
            }
        }

        return new YamlMap(line, entries);
    }

    private ParsingEvent Next() =>
        parser.MoveNext() ? parser.Current! : throw new YamlException("the file ends in the middle of a list or a group of keys");

    private void RefuseDecoration(NodeEvent node, int line)
    {
        if (!node.Anchor.IsEmpty)
        {
            Refuse(line, $"The anchor '&{node.Anchor.Value}' is not accepted; write each value out.");
        }

        if (!node.Tag.IsEmpty && !node.Tag.IsNonSpecific)
        {
            Refuse(line, $"The tag '{node.Tag.Value.Replace("tag:yaml.org,2002:", "!!", StringComparison.Ordinal)}' is not accepted; write the value without it.");
        }
    }

    private void Refuse(int line, string message)
    {
        if (refusedLines.Add(line))
        {
            problems.Add(line, message);
        }
    }
}
