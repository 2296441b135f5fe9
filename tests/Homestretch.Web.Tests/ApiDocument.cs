using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;

using Json.Schema;

namespace Homestretch.Web.Tests;

/// <summary>The interface's own description, to check answers with.</summary>
public sealed class ApiDocument
{
    private const string Components = "#/components/schemas/";

    private readonly JsonObject _root;
    private readonly Dictionary<(string Path, string Method, string Status, string Type), JsonSchema> _schemas = [];

    private ApiDocument(JsonObject root) => _root = root;

    /// <summary>Every operation.</summary>
    public IReadOnlyList<(string Path, string Method)> Operations
        => [.. _root["paths"]!.AsObject().SelectMany(p => p.Value!.AsObject().Where(o => o.Key is "get" or "post" or "put" or "delete").Select(o => (p.Key, o.Key)))];

    /// <summary>Fetches it.</summary>
    public static async Task<ApiDocument> GetAsync(HttpClient client, CancellationToken cancellation)
        => new(JsonNode.Parse(await client.GetStringAsync(new Uri("/api/v1/openapi.json", UriKind.Relative), cancellation))!.AsObject());

    /// <summary>An operation of it.</summary>
    public JsonObject Operation(string path, string method) => _root["paths"]![path]?[method]?.AsObject() ?? throw new InvalidOperationException($"No operation {method} {path} is described.");

    /// <summary>Checks that an answer is one that the operation's description names, and has the shape it gives.</summary>
    public async Task CheckAsync(string path, string method, HttpResponseMessage answer, CancellationToken cancellation)
    {
        string status = ((int)answer.StatusCode).ToString(System.Globalization.CultureInfo.InvariantCulture);
        JsonNode described = Operation(path, method)["responses"]?[status] ?? throw new InvalidOperationException($"{method} {path} answered {status}, which is not described: {await answer.Content.ReadAsStringAsync(cancellation)}");
        byte[] body = await answer.Content.ReadAsByteArrayAsync(cancellation);
        if (described["content"]?.AsObject() is not { } contents)
        {
            Assert.Empty(body);
            return;
        }

        string type = answer.Content.Headers.ContentType!.MediaType!;
        Assert.Contains(type, contents.Select(c => c.Key));
        if (!type.EndsWith("json", StringComparison.Ordinal))
        {
            Assert.NotEmpty(body);
            return;
        }

        JsonSchema schema = Schema(path, method, status, type, contents[type]!["schema"]!);
        using JsonDocument document = JsonDocument.Parse(body);
        EvaluationResults results = schema.Evaluate(document.RootElement, new EvaluationOptions { OutputFormat = OutputFormat.List });
        Assert.True(
            results.IsValid,
            $"{method} {path} {status}: " + string.Join('\n', (results.Details ?? []).Where(d => d.Errors is not null).Take(10).Select(d => $"{d.InstanceLocation}: {string.Join("; ", d.Errors!.Values)}")) + "\n" + Encoding.UTF8.GetString(body)[..Math.Min(body.Length, 1500)]);
    }

    // A schema of OpenAPI 3.1 is one of JSON Schema; only the place of the shared ones differs.
    private JsonSchema Schema(string path, string method, string status, string type, JsonNode schema)
    {
        if (_schemas.TryGetValue((path, method, status, type), out JsonSchema? known))
        {
            return known;
        }

        JsonObject whole = new() { ["$defs"] = _root["components"]!["schemas"]!.DeepClone(), ["allOf"] = new JsonArray(schema.DeepClone()) };
        return _schemas[(path, method, status, type)] = JsonSchema.FromText(whole.ToJsonString().Replace(Components, "#/$defs/", StringComparison.Ordinal));
    }
}
