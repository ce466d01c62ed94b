using NodaTime;

namespace SiteProgress.Jobs.Map;

/// <summary>What stands before the columns of the map's pile data.</summary>
/// <param name="Zones">Zones in the order the zone column counts.</param>
/// <param name="Barges">Barges in the order the barge column counts.</param>
/// <param name="Days">Working days, ascending, in the order the day column counts.</param>
/// <param name="RecordSequence">The last record these data follow from.</param>
/// <param name="RecordedAt">Its time, site time, as people read it.</param>
/// <param name="DesignRevision">The pile schedule recorded last, as people read it; null before the first.</param>
/// <param name="ConvergenceDegrees">True bearing of CRS grid north at the middle of the site, degrees.</param>
/// <param name="PointScale">Grid metres for one metre on the ellipsoid there.</param>
/// <param name="SiteGrid">How the pointer's site-grid coordinates are worked out; null where that cannot be done to a millimetre.</param>
/// <param name="DesignChanged">Places, in the columns, of built piles whose design was changed afterwards and of which nothing is decided; null for none.</param>
/// <param name="Waiting">Piles that wait for a hold point: place in the columns and number of the hold point; null for none.</param>
internal sealed record MapPreamble(
    IReadOnlyList<string> Zones,
    IReadOnlyList<string> Barges,
    IReadOnlyList<LocalDate> Days,
    long RecordSequence,
    string RecordedAt,
    string? DesignRevision,
    double ConvergenceDegrees,
    double PointScale,
    PointerFit? SiteGrid,
    IReadOnlyList<int>? DesignChanged = null,
    IReadOnlyList<int[]>? Waiting = null);
