using NodaTime;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Matching;

/// <summary>An installation whose recorded positions were put on the site grid by a named adjustment.</summary>
/// <param name="Sequence">Sequence of its record.</param>
/// <param name="Batch">Sequence of its batch.</param>
/// <param name="AdjustmentRevision">The adjustment used.</param>
/// <param name="Recorded">What was recorded.</param>
/// <param name="TouchDown">Casing axis at touch-down, site grid.</param>
/// <param name="AtEndOfPenetration">Casing axis at the end of penetration, site grid.</param>
public sealed record LocatedInstallation(
    long Sequence,
    long Batch,
    int AdjustmentRevision,
    Installation Recorded,
    SiteCoordinate? TouchDown,
    SiteCoordinate? AtEndOfPenetration)
{
    /// <summary>The position used to find the pile: at the end of penetration, else at touch-down.</summary>
    public SiteCoordinate? Position => AtEndOfPenetration ?? TouchDown;

    /// <summary>The moment whose design it is held against: the casing left the pile, else the last moment that is on the record.</summary>
    public Instant? BuiltAt => Recorded.End ?? Recorded.EndOfPenetration ?? Recorded.Start;

    /// <summary>Sequence of the last correction its positions carry; null where they are as recorded.</summary>
    public long? Correction { get; init; }

    /// <summary>Sequence of the calibration of its casing that held when it was made; null where none did.</summary>
    public long? Calibration { get; init; }

    /// <summary>The log that counts for it; null where none was recorded.</summary>
    public JoinedLog? Log { get; init; }

    /// <summary>Why its recorded depth of the tip gives no level; null where it does or none is recorded.</summary>
    public string? WhyNoTipLevel { get; init; }

    /// <summary>Why its recorded depth of the top gives no level; null where it does or none is recorded.</summary>
    public string? WhyNoTopLevel { get; init; }
}
