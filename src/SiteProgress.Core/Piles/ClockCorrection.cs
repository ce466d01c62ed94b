using NodaTime;

namespace SiteProgress.Core.Piles;

/// <summary>
/// The clock of a barge's recording system was wrong for a while. Times recorded within the span are put right by it; what was
/// recorded stays. Of several corrections for one moment the last one recorded holds, so a correction of zero takes one back.
/// </summary>
/// <param name="Barge">Barge whose system recorded.</param>
/// <param name="Sender">Name of the sender whose records alone are meant; null for everything recorded on the barge, by files too.</param>
/// <param name="From">First moment, as the wrong clock showed it.</param>
/// <param name="Until">End of the span, as the wrong clock showed it; not itself within.</param>
/// <param name="AheadSeconds">By how much the clock was ahead of true time, seconds; negative where it was behind.</param>
/// <param name="Reason">Why, and how it was found.</param>
public sealed record ClockCorrection(string Barge, string? Sender, Instant From, Instant Until, double AheadSeconds, string Reason);
