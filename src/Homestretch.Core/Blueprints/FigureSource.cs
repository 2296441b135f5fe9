using NodaTime;

namespace Homestretch.Core.Blueprints;

/// <summary>Where the blueprint's figures were published.</summary>
/// <param name="Title">Title of the handbook or page.</param>
/// <param name="Date">Its date.</param>
/// <param name="Where">Address or shelf mark, if given.</param>
public sealed record FigureSource(string Title, LocalDate Date, string? Where);
