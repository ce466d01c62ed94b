using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;

namespace SiteProgress.Jobs.Piles;

/// <summary>One recorded installation in a list. Positions are on the site grid, levels above the site's level datum.</summary>
public sealed record InstallationLine
{
    /// <summary>Its record.</summary>
    public long Sequence { get; init; }

    /// <summary>Its batch.</summary>
    public long Batch { get; init; }

    /// <summary>Line of the file.</summary>
    public long Line { get; init; }

    /// <summary>The sender's identifier.</summary>
    public string? RecordId { get; init; }

    /// <summary>Pile number as recorded.</summary>
    public required string RecordedNumber { get; init; }

    /// <summary>How it stands to the design.</summary>
    public MatchOutcome Match { get; init; }

    /// <summary>The pile it is taken for.</summary>
    public string? Adopted { get; init; }

    /// <summary>The planned pile nearest to it within reach.</summary>
    public string? Nearest { get; init; }

    /// <summary>Distance to the pile its number names.</summary>
    public double? DistanceToNamedMetres { get; init; }

    /// <summary>Distance to the nearest planned pile.</summary>
    public double? DistanceToNearestMetres { get; init; }

    /// <summary>The record it repeats.</summary>
    public long? SameAs { get; init; }

    /// <summary>True while a person has to decide.</summary>
    public bool WaitsForDecision { get; init; }

    /// <summary>True when its pile stands on it.</summary>
    public bool Stands { get; init; }

    /// <summary>Barge.</summary>
    public required string Barge { get; init; }

    /// <summary>Casing.</summary>
    public int? Casing { get; init; }

    /// <summary>Set-up.</summary>
    public string? SetUp { get; init; }

    /// <summary>Start (UTC).</summary>
    public DateTime? StartedAt { get; init; }

    /// <summary>Casing left the pile (UTC).</summary>
    public DateTime? EndedAt { get; init; }

    /// <summary>Working day of the end.</summary>
    public DateOnly? WorkingDay { get; init; }

    /// <summary>Shift of the end.</summary>
    public string? Shift { get; init; }

    /// <summary>Position at the end of penetration, or else at touch-down: first axis of the site grid.</summary>
    public double? XMetres { get; init; }

    /// <summary>The same position, second axis.</summary>
    public double? YMetres { get; init; }

    /// <summary>Latitude of that position.</summary>
    public double? LatitudeDegrees { get; init; }

    /// <summary>Longitude of that position.</summary>
    public double? LongitudeDegrees { get; init; }

    /// <summary>Top level.</summary>
    public double? TopLevelMetres { get; init; }

    /// <summary>Tip level.</summary>
    public double? TipLevelMetres { get; init; }

    /// <summary>Sand, loose volume in the casing.</summary>
    public double? SandInCasingCubicMetres { get; init; }

    /// <summary>How the attempt ended.</summary>
    public Outcome Outcome { get; init; }

    /// <summary>The crew's remark.</summary>
    public string? Remark { get; init; }
}
