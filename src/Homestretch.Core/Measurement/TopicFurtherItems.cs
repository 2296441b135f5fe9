using Homestretch.Core.Blueprints;

namespace Homestretch.Core.Measurement;

/// <summary>Further items on one topic.</summary>
/// <param name="Topic">The topic.</param>
/// <param name="Candidates">People whose plan turns on this topic and whose standing on it is not settled.</param>
/// <param name="Items">Items that would, on average, settle it for at least half of them; null where that takes more than
/// <see cref="Standing.StandingCalculator.MostItemsToSettle"/>.</param>
public sealed record TopicFurtherItems(ExamTopic Topic, int Candidates, int? Items);
