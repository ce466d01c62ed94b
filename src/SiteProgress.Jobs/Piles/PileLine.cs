using SiteProgress.Core.Piles;

namespace SiteProgress.Jobs.Piles;

/// <summary>
/// One pile in a list. Positions are on the site grid, levels above the site's level datum, deviations as-built minus planned;
/// what is not on record is null, never zero.
/// </summary>
public sealed record PileLine
{
    /// <summary>Pile number.</summary>
    public required string Number { get; init; }

    /// <summary>Zone.</summary>
    public required string Zone { get; init; }

    /// <summary>Where the pile stands.</summary>
    public PileState State { get; init; }

    /// <summary>Design position, first axis of the site grid.</summary>
    public double DesignXMetres { get; init; }

    /// <summary>Design position, second axis of the site grid.</summary>
    public double DesignYMetres { get; init; }

    /// <summary>Design diameter.</summary>
    public double DesignDiameterMetres { get; init; }

    /// <summary>Design top level.</summary>
    public double DesignTopLevelMetres { get; init; }

    /// <summary>Design tip level; null where only a stop criterion decides.</summary>
    public double? DesignTipLevelMetres { get; init; }

    /// <summary>As-built position that was judged, first axis of the site grid.</summary>
    public double? AsBuiltXMetres { get; init; }

    /// <summary>As-built position that was judged, second axis of the site grid.</summary>
    public double? AsBuiltYMetres { get; init; }

    /// <summary>dE, along CRS grid east.</summary>
    public double? DeviationEastMetres { get; init; }

    /// <summary>dN, along CRS grid north.</summary>
    public double? DeviationNorthMetres { get; init; }

    /// <summary>Radial deviation.</summary>
    public double? DeviationRadialMetres { get; init; }

    /// <summary>Radial limit in force.</summary>
    public double RadialLimitMetres { get; init; }

    /// <summary>Uncertainty (95 %) of the judged position.</summary>
    public double? UncertaintyMetres { get; init; }

    /// <summary>True when the position may be held against the limit.</summary>
    public bool Comparable { get; init; }

    /// <summary>Limit along the first site axis; null where the contract sets none.</summary>
    public double? AlongLimitMetres { get; init; }

    /// <summary>Limit along the second site axis; null where the contract sets none.</summary>
    public double? AcrossLimitMetres { get; init; }

    /// <summary>True when a value is beyond the site's own alert for it.</summary>
    public bool BeyondAlert { get; init; }

    /// <summary>The checks whose value is beyond the site's own alert.</summary>
    public IReadOnlyList<string> Alerts { get; init; } = [];

    /// <summary>As-built top level.</summary>
    public double? AsBuiltTopLevelMetres { get; init; }

    /// <summary>As-built tip level.</summary>
    public double? AsBuiltTipLevelMetres { get; init; }

    /// <summary>As-built length.</summary>
    public double? LengthMetres { get; init; }

    /// <summary>Sand used, loose volume in the casing.</summary>
    public double? SandInCasingCubicMetres { get; init; }

    /// <summary>Sand that stands, volume in the pile.</summary>
    public double? SandInPileCubicMetres { get; init; }

    /// <summary>Design sand of the as-built length, volume in the pile.</summary>
    public double? SandDesignCubicMetres { get; init; }

    /// <summary>Mean equivalent diameter.</summary>
    public double? MeanDiameterMetres { get; init; }

    /// <summary>Working day of completion.</summary>
    public DateOnly? WorkingDay { get; init; }

    /// <summary>Shift of completion.</summary>
    public string? Shift { get; init; }

    /// <summary>When the casing left the pile (UTC).</summary>
    public DateTime? EndedAt { get; init; }

    /// <summary>Barge that completed it.</summary>
    public string? Barge { get; init; }

    /// <summary>Casing that completed it.</summary>
    public int? Casing { get; init; }

    /// <summary>Set-up from which it was completed.</summary>
    public string? SetUp { get; init; }

    /// <summary>How its design was changed after it was built; null where it was not.</summary>
    public string? DesignChange { get; init; }

    /// <summary>True while nothing is decided about that change.</summary>
    public bool DesignChangeOpen { get; init; }

    /// <summary>The revision that took it out of the design, where something stands for it all the same.</summary>
    public int? TakenOutByRevision { get; init; }

    /// <summary>The non-conformance it is in: the open one, else the last.</summary>
    public int? NonConformance { get; init; }

    /// <summary>The lot it waits or was accepted in.</summary>
    public int? Lot { get; init; }

    /// <summary>The hold point it waits for.</summary>
    public int? HeldBy { get; init; }

    /// <summary>Why an acceptance no longer holds.</summary>
    public string? Reopened { get; init; }

    /// <summary>The pile that replaces it.</summary>
    public string? ReplacedBy { get; init; }

    /// <summary>Attempts adopted for it.</summary>
    public int Attempts { get; init; }

    /// <summary>Checks not met.</summary>
    public IReadOnlyList<string> Findings { get; init; } = [];

    /// <summary>Required checks not judged.</summary>
    public IReadOnlyList<string> NotJudged { get; init; } = [];
}
