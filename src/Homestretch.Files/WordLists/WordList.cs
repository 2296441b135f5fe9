using System.Collections.Immutable;

using Homestretch.Core.Words;

namespace Homestretch.Files.WordLists;

/// <summary>The words that a person noted.</summary>
/// <param name="Words">In the order of the files.</param>
public sealed record WordList(ImmutableArray<Word> Words);
