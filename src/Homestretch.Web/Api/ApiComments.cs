using System.Collections.Frozen;
using System.Reflection;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using System.Xml.Linq;

using Homestretch.Files.Documents;

namespace Homestretch.Web.Api;

/// <summary>The comments of records in the code, which say units and ranges, for the description of their fields.</summary>
internal sealed class ApiComments
{
    private readonly FrozenDictionary<(string Type, string Parameter), string> _fields;
    private readonly FrozenDictionary<(string Shape, string Field), string> _byName;
    private readonly FrozenDictionary<string, string> _types;

    private ApiComments(Dictionary<(string, string), string> fields, Dictionary<string, string> types)
    {
        _fields = fields.ToFrozenDictionary();
        _byName = fields.DistinctBy(f => Short(f.Key)).ToFrozenDictionary(f => Short(f.Key), f => f.Value);
        _types = types.ToFrozenDictionary();
    }

    /// <summary>Reads the comments beside the program.</summary>
    public static ApiComments Load()
    {
        Dictionary<(string, string), string> fields = [];
        Dictionary<string, string> types = [];
        foreach (Assembly assembly in new[] { typeof(ApiComments).Assembly, typeof(PlanDocument).Assembly })
        {
            string path = Path.Combine(AppContext.BaseDirectory, assembly.GetName().Name + ".xml");
            foreach (XElement member in File.Exists(path) ? XDocument.Load(path).Descendants("member") : [])
            {
                string name = (string)member.Attribute("name")!;
                if (!name.StartsWith("T:", StringComparison.Ordinal))
                {
                    continue;
                }

                types[name[2..]] = member.Element("summary") is { } summary ? Text(summary) : "";
                foreach (XElement parameter in member.Elements("param"))
                {
                    fields[(name[2..], (string)parameter.Attribute("name")!)] = Text(parameter);
                }
            }
        }

        return new(fields, types);
    }

    /// <summary>What a field is; null where nothing says so.</summary>
    public string? Of(JsonPropertyInfo field)
        => field.AttributeProvider is PropertyInfo property ? _fields.GetValueOrDefault((Name(field.DeclaringType), property.Name)) : null;

    /// <summary>What a shape is; null where nothing says so.</summary>
    public string? Of(Type type) => _types.GetValueOrDefault(Name(type));

    /// <summary>What a field is, by the name of its shape in the description, such as <c>KeptRowFieldsOfStudyCells</c>, and its own; null where nothing says so.</summary>
    public string? Of(string shape, string field)
        => _byName.GetValueOrDefault((shape, field)) ?? _byName.GetValueOrDefault((shape.Split("Of")[0], field));

    private static string Name(Type type) => (type.IsGenericType ? type.GetGenericTypeDefinition() : type).FullName?.Replace('+', '.') ?? "";

    private static (string Shape, string Field) Short((string Type, string Parameter) key)
        => (key.Type.Split('.')[^1].Split('`')[0], JsonNamingPolicy.CamelCase.ConvertName(key.Parameter));

    private static string Text(XElement element)
        => string.Join(' ', string.Concat(element.Nodes().Select(n => n is XElement { Name.LocalName: "see" } see ? ((string?)see.Attribute("cref") ?? "").Split('.')[^1] : n is XElement e ? e.Value : n.ToString())).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
