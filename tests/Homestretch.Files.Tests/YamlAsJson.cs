using System.Globalization;
using System.Text.Json.Nodes;

using YamlDotNet.Core;
using YamlDotNet.RepresentationModel;

namespace Homestretch.Files.Tests;

/// <summary>Turns YAML into JSON by the rules of YAML 1.2's core schema, apart from the code under test.</summary>
internal static class YamlAsJson
{
    public static JsonNode? Convert(string yaml)
    {
        YamlStream stream = [];
        stream.Load(new StringReader(yaml));
        return Convert(stream.Documents[0].RootNode);
    }

    private static JsonNode? Convert(YamlNode node) => node switch
    {
        YamlMappingNode map => new JsonObject(map.Children.Select(c => KeyValuePair.Create(((YamlScalarNode)c.Key).Value!, Convert(c.Value)))),
        YamlSequenceNode list => new JsonArray([.. list.Children.Select(Convert)]),
        YamlScalarNode scalar => Scalar(scalar),
        _ => throw new NotSupportedException(node.NodeType.ToString()),
    };

    private static JsonValue? Scalar(YamlScalarNode scalar)
    {
        string text = scalar.Value ?? "";
        if (scalar.Style != ScalarStyle.Plain)
        {
            return JsonValue.Create(text);
        }

        return text is "" or "~" or "null" ? null
            : text is "true" or "false" ? JsonValue.Create(text == "true")
            : long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long whole) ? JsonValue.Create(whole)
            : double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number) ? JsonValue.Create(number)
            : JsonValue.Create(text);
    }
}
