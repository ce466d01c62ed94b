using NodaTime;

namespace SiteProgress.Core.Piles;

/// <summary>One row of a schedule of progress: how many piles shall stand at the end of a working day.</summary>
/// <param name="Day">Working day.</param>
/// <param name="Zone">Zone; null for the whole site.</param>
/// <param name="CumulativePiles">Piles planned to stand by the end of the day, counted from the beginning of the work.</param>
public sealed record PlannedProgress(LocalDate Day, string? Zone, int CumulativePiles);
