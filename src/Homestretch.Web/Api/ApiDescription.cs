using System.Collections.Immutable;

using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;

namespace Homestretch.Web.Api;

/// <summary>What the OpenAPI description says beyond what the code's types and comments say.</summary>
internal static class ApiDescription
{
    // Parts of paths, and what several operations take in their query.
    private static readonly ImmutableDictionary<string, string> _parameters = new Dictionary<string, string>
    {
        ["key"] = "Names the case, or the exam, as lists and answers give it. Of the demo's people (mara-venn, tobias-okell, ines-harrow) there are documents only.",
        ["id"] = "A number as lists give it.",
        ["offset"] = "Entries to pass over, from 0.",
        ["limit"] = "Most entries in the answer, from 1 to 500.",
        ["removed"] = "True for removed cases that can be brought back.",
        ["all"] = "True for those that were taken out, too.",
        ["minutes"] = "Minutes for recalls today, from 1 to 240.",
    }.ToImmutableDictionary();

    public static void Set(OpenApiOptions options)
    {
        options.ShouldInclude = d => d.RelativePath?.StartsWith(ApiRoutes.Root.TrimStart('/') + "/", StringComparison.Ordinal) == true;
        ApiComments comments = ApiComments.Load();
        options.AddDocumentTransformer((document, _, _) =>
        {
            Complete(document, comments);
            document.Info = new OpenApiInfo
            {
                Title = "Homestretch",
                Version = "1",
                Description = "Plans for people who must pass a licensing or certification exam: cases, their evidence and figures, exams. The documents are those of the shell program (docs/json.md). "
                    + "Chances and shares are numbers from 0 to 1; dates are ISO 8601; times carry an offset; a field without a value is null. Errors are problem details (RFC 9457). "
                    + "There is no sign-in: the program listens on this computer only, and refuses what pages of other sites send. A forecast is not a promise.",
                License = new OpenApiLicense { Name = "MIT" },
            };
            return Task.CompletedTask;
        });
        options.AddOperationTransformer((operation, context, _) =>
        {
            foreach (OpenApiParameter parameter in (operation.Parameters ?? []).OfType<OpenApiParameter>())
            {
                parameter.Description ??= _parameters.GetValueOrDefault(parameter.Name ?? "");
            }

            // Whatever takes a file as its body takes a name for it, and whatever can find a case changed takes the state that was seen.
            if (operation.RequestBody?.Content?.Keys.Any(type => !type.EndsWith("json", StringComparison.Ordinal)) == true)
            {
                AddQuery(operation, [("name", "A name for the file that is the body, for messages and lists.")]);
            }

            if (operation.Responses?.ContainsKey("412") == true)
            {
                operation.Parameters ??= [];
                operation.Parameters.Add(new OpenApiParameter { Name = "If-Match", In = ParameterLocation.Header, Description = "The state (ETag) that the case must have.", Schema = new OpenApiSchema { Type = JsonSchemaType.String } });
            }

            // What is no JSON is a file.
            foreach ((string type, OpenApiMediaType file) in Contents(operation))
            {
                if (!type.EndsWith("json", StringComparison.Ordinal))
                {
                    file.Schema = new OpenApiSchema { Type = JsonSchemaType.String, Description = "The file." };
                }
            }

            return Task.CompletedTask;
        });
        options.AddSchemaTransformer((schema, context, _) =>
        {
            string? says = context.JsonPropertyInfo is { } field ? comments.Of(field) : comments.Of(context.JsonTypeInfo.Type);
            if (string.IsNullOrEmpty(schema.Description) && !string.IsNullOrEmpty(says))
            {
                schema.Description = says;
            }

            return Task.CompletedTask;
        });
    }

    // Shapes inside lists that may be null pass the step for single shapes by.
    private static void Complete(OpenApiDocument document, ApiComments comments)
    {
        foreach ((string shape, IOpenApiSchema schema) in document.Components?.Schemas ?? new Dictionary<string, IOpenApiSchema>())
        {
            foreach ((string name, IOpenApiSchema field) in schema.Properties ?? new Dictionary<string, IOpenApiSchema>())
            {
                if (field is not OpenApiSchema inPlace)
                {
                    continue;
                }

                if (string.IsNullOrEmpty(inPlace.Description))
                {
                    inPlace.Description = comments.Of(shape, name);
                }

                // A cell is read as text, whether it comes as text or as a number.
                if (shape is nameof(EvidenceCells) or nameof(StudyCells))
                {
                    inPlace.Type = JsonSchemaType.String | JsonSchemaType.Number | JsonSchemaType.Null;
                }
            }
        }
    }

    private static IEnumerable<KeyValuePair<string, OpenApiMediaType>> Contents(OpenApiOperation operation)
        => [.. operation.RequestBody?.Content ?? NoContent, .. (operation.Responses ?? []).Values.SelectMany(r => r.Content ?? NoContent)];

    private static Dictionary<string, OpenApiMediaType> NoContent { get; } = [];

    public static void AddQuery(OpenApiOperation operation, ImmutableArray<(string Name, string Says)> parameters)
    {
        operation.Parameters ??= [];
        foreach ((string name, string says) in parameters)
        {
            operation.Parameters.Add(new OpenApiParameter { Name = name, In = ParameterLocation.Query, Description = says, Schema = new OpenApiSchema { Type = JsonSchemaType.String } });
        }
    }
}
