using System.Collections.Immutable;

using NodaTime;

namespace Homestretch.Core.Deciding;

/// <summary>Sit, postpone, or retake when? The figures; the person decides.</summary>
/// <param name="Terms">Fees, deadlines and the pass chance that is good enough.</param>
/// <param name="Options">Dates in order.</param>
/// <param name="EarliestRetake">First day the owner's rules allow after earlier official attempts; null where there were none or no rule is published.</param>
/// <param name="Best">The date the figures speak for: the first allowed one with a pass chance that is good enough; where none is, the first one from which a later date adds less than <see cref="DateAdvisor.SmallGain"/>
/// a week. Null where no date is allowed.</param>
/// <param name="Reason">Why, in a sentence.</param>
public sealed record DateAdvice(SittingTerms Terms, ImmutableArray<DateOption> Options, LocalDate? EarliestRetake, DateOption? Best, string Reason);
