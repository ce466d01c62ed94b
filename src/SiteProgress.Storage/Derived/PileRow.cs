using NetTopologySuite.Geometries;

namespace SiteProgress.Storage.Derived;

/// <summary>One planned pile with all that follows for it. Metres, cubic metres, degrees; levels above the site's datum.</summary>
public sealed class PileRow : IDerivedRow
{
    /// <inheritdoc />
    public int Site { get; set; }

    /// <summary>Pile number.</summary>
    public required string Number { get; set; }

    /// <summary>Zone.</summary>
    public required string Zone { get; set; }

    /// <summary>State, the number of <see cref="Core.Piles.PileState"/>.</summary>
    public short State { get; set; }

    /// <summary>Sequence of the schedule row it comes from.</summary>
    public long DesignSequence { get; set; }

    /// <summary>Design position, site grid.</summary>
    public double DesignX { get; set; }

    /// <summary>Design position, site grid.</summary>
    public double DesignY { get; set; }

    /// <summary>Design position, geographic.</summary>
    public double Latitude { get; set; }

    /// <summary>Design position, geographic.</summary>
    public double Longitude { get; set; }

    /// <summary>Design position in the projected CRS.</summary>
    public required Point DesignPlace { get; set; }

    /// <summary>Design diameter.</summary>
    public double DesignDiameter { get; set; }

    /// <summary>Design top level.</summary>
    public double DesignTop { get; set; }

    /// <summary>Design tip level.</summary>
    public double? DesignTip { get; set; }

    /// <summary>Least length.</summary>
    public double? LeastLength { get; set; }

    /// <summary>The designer's remark.</summary>
    public string? Remark { get; set; }

    /// <summary>Attempts adopted for it.</summary>
    public int Attempts { get; set; }

    /// <summary>Sequences of the installations it stands on, lowest part first.</summary>
    public required long[] Standing { get; set; }

    /// <summary>Sequence of the installation whose position governs.</summary>
    public long? JudgedInstallation { get; set; }

    /// <summary>Moment of the governing position, the number of <see cref="Core.Checks.PositionMoment"/>.</summary>
    public short? JudgedMoment { get; set; }

    /// <summary>As-built position, site grid.</summary>
    public double? AsBuiltX { get; set; }

    /// <summary>As-built position, site grid.</summary>
    public double? AsBuiltY { get; set; }

    /// <summary>As-built position in the projected CRS.</summary>
    public Point? AsBuiltPlace { get; set; }

    /// <summary>dE, along CRS grid east.</summary>
    public double? DeviationEast { get; set; }

    /// <summary>dN, along CRS grid north.</summary>
    public double? DeviationNorth { get; set; }

    /// <summary>Along the first site axis.</summary>
    public double? DeviationAlong { get; set; }

    /// <summary>Along the second site axis.</summary>
    public double? DeviationAcross { get; set; }

    /// <summary>Radial deviation.</summary>
    public double? DeviationRadial { get; set; }

    /// <summary>Uncertainty (95 %) of the judged position.</summary>
    public double? Uncertainty { get; set; }

    /// <summary>True when the position may be held against the limit.</summary>
    public bool Comparable { get; set; }

    /// <summary>Radial limit in force.</summary>
    public double RadialLimit { get; set; }

    /// <summary>Limit along the first site axis, where the contract sets one.</summary>
    public double? AlongLimit { get; set; }

    /// <summary>Limit along the second site axis, where the contract sets one.</summary>
    public double? AcrossLimit { get; set; }

    /// <summary>The judged position as a share of the limit that decides.</summary>
    public double? LimitShare { get; set; }

    /// <summary>True when a value is beyond the site's own alert for it.</summary>
    public bool BeyondAlert { get; set; }

    /// <summary>Names of the checks whose value is beyond the site's own alert, parted by spaces.</summary>
    public string Alerts { get; set; } = "";

    /// <summary>As-built top level.</summary>
    public double? AsBuiltTop { get; set; }

    /// <summary>As-built tip level.</summary>
    public double? AsBuiltTip { get; set; }

    /// <summary>As-built length.</summary>
    public double? Length { get; set; }

    /// <summary>Sand used, loose volume in the casing.</summary>
    public double? SandInCasing { get; set; }

    /// <summary>Sand that stands, volume in the pile.</summary>
    public double? SandInPile { get; set; }

    /// <summary>Design sand of the as-built length, volume in the pile.</summary>
    public double? SandDesign { get; set; }

    /// <summary>Mean diameter that the sand in the pile gives over the as-built length.</summary>
    public double? MeanDiameter { get; set; }

    /// <summary>Working day on which it was completed.</summary>
    public DateOnly? WorkingDay { get; set; }

    /// <summary>Shift in which it was completed.</summary>
    public string? Shift { get; set; }

    /// <summary>When the casing left it (UTC).</summary>
    public DateTime? EndedAt { get; set; }

    /// <summary>Barge that completed it.</summary>
    public string? Barge { get; set; }

    /// <summary>Casing that completed it.</summary>
    public int? Casing { get; set; }

    /// <summary>Set-up from which it was completed.</summary>
    public string? SetUp { get; set; }

    /// <summary>Checks not met, as words parted by a space; empty when none.</summary>
    public required string Findings { get; set; }

    /// <summary>Required checks not judged, as words parted by a space; empty when none.</summary>
    public required string NotJudged { get; set; }

    /// <summary>All checks with their numbers, as JSON.</summary>
    public required string Checks { get; set; }

    /// <summary>Number of the revision of the design it is judged by; 0 for an additional pile.</summary>
    public int DesignRevision { get; set; }

    /// <summary>How its design was changed after it was built; null where it was not.</summary>
    public string? DesignChange { get; set; }

    /// <summary>True while nothing is decided about that change.</summary>
    public bool DesignChangeOpen { get; set; }

    /// <summary>The revision that took it out of the design, where something stands for it all the same.</summary>
    public int? TakenOutBy { get; set; }

    /// <summary>The non-conformance it is in: the open one, else the last.</summary>
    public int? NonConformance { get; set; }

    /// <summary>The lot that waits with it, or in which it was accepted.</summary>
    public int? Lot { get; set; }

    /// <summary>The hold point it waits for.</summary>
    public int? HeldBy { get; set; }

    /// <summary>The hold point that waited when it was built.</summary>
    public int? BuiltWhileHeld { get; set; }

    /// <summary>The record that accepted it, while the acceptance holds.</summary>
    public long? AcceptedIn { get; set; }

    /// <summary>Why an acceptance no longer holds.</summary>
    public string? Reopened { get; set; }

    /// <summary>The pile it replaces.</summary>
    public string? Replaces { get; set; }

    /// <summary>The pile that replaces it.</summary>
    public string? ReplacedBy { get; set; }

    /// <inheritdoc />
    public Guid Digest { get; set; }
}
