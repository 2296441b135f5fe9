using Homestretch.Store;

namespace Homestretch.Web.Cases;

/// <summary>A file as a person gave it to us.</summary>
/// <param name="Role">What it is for.</param>
/// <param name="Name">Its name, without folders.</param>
/// <param name="Content">Its bytes.</param>
public sealed record NamedFile(FileRole Role, string Name, ReadOnlyMemory<byte> Content);
