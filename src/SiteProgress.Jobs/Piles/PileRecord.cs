using NodaTime;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.Piles;

/// <summary>All that the records say of one planned pile, with every number behind its judgement.</summary>
/// <param name="Number">Pile number.</param>
/// <param name="State">Where it stands.</param>
/// <param name="Zone">Design and limits of its zone, as in force.</param>
/// <param name="Frames">Names of frames, datum and time zone that the numbers belong to.</param>
/// <param name="Design">What was planned.</param>
/// <param name="AsBuilt">What stands; null while nothing does.</param>
/// <param name="Checks">Every check with its numbers; none while nothing stands.</param>
/// <param name="Attempts">Installations that concern it, adopted or not, in order of time.</param>
/// <param name="History">Records that concern it, in order.</param>
/// <param name="Neighbours">Piles before and after it.</param>
/// <param name="RecordSequence">The last record of the site this follows from.</param>
public sealed record PileRecord(
    string Number,
    PileState State,
    Zone Zone,
    FrameNames Frames,
    DesignOfPile Design,
    AsBuiltPile? AsBuilt,
    IReadOnlyList<CheckResult> Checks,
    IReadOnlyList<PileAttempt> Attempts,
    IReadOnlyList<HistoryLine> History,
    NeighbourNumbers Neighbours,
    long RecordSequence)
{
    /// <summary>How its design stands to what was built.</summary>
    public DesignStanding DesignStanding { get; init; } = new(0, null, false, null);
}

/// <summary>How the design of a pile stands to what was built.</summary>
/// <param name="JudgedByRevision">The revision it is judged by: the one in force when it was built. 0 for an additional pile.</param>
/// <param name="Change">How its design was changed since; null where it was not.</param>
/// <param name="Open">True while nothing is decided about that.</param>
/// <param name="TakenOutByRevision">The revision that took it out of the design.</param>
public sealed record DesignStanding(int JudgedByRevision, string? Change, bool Open, int? TakenOutByRevision);

/// <summary>Names of what the numbers of a site belong to.</summary>
/// <param name="LevelDatum">Datum of all levels.</param>
/// <param name="Axes">Axes of the site grid.</param>
/// <param name="ProjectedCrs">Name of the projected CRS.</param>
/// <param name="EpsgCode">Its EPSG code.</param>
/// <param name="GeographicCrs">Name of the geographic CRS on the same datum.</param>
/// <param name="AdjustmentRevision">Adjustment of the site grid in force.</param>
/// <param name="BearingOfFirstAxisDegrees">Bearing of the site grid's first axis from CRS grid north, clockwise.</param>
/// <param name="BearingOfSecondAxisDegrees">Bearing of its second axis.</param>
/// <param name="TimeZone">IANA time zone of the site.</param>
public sealed record FrameNames(
    LevelDatum LevelDatum,
    GridAxes Axes,
    string ProjectedCrs,
    int EpsgCode,
    string GeographicCrs,
    int AdjustmentRevision,
    double BearingOfFirstAxisDegrees,
    double BearingOfSecondAxisDegrees,
    string TimeZone);

/// <summary>One place in the three frames of the site.</summary>
/// <param name="Site">Site grid.</param>
/// <param name="Projected">Projected CRS.</param>
/// <param name="Geographic">Latitude and longitude on the datum of the projected CRS; NaN where it cannot be projected.</param>
public sealed record PlaceInFrames(SiteCoordinate Site, ProjectedCoordinate Projected, GeographicCoordinate? Geographic);

/// <summary>What was planned.</summary>
/// <param name="Sequence">Record of the schedule row in force.</param>
/// <param name="Place">Design position.</param>
/// <param name="DiameterMetres">Design diameter.</param>
/// <param name="TopLevelMetres">Design top level.</param>
/// <param name="TipLevelMetres">Design tip level; null where only a stop criterion decides.</param>
/// <param name="LeastLengthMetres">Least length, where one is set.</param>
/// <param name="Remark">The designer's remark.</param>
public sealed record DesignOfPile(
    long Sequence,
    PlaceInFrames Place,
    double DiameterMetres,
    double TopLevelMetres,
    double? TipLevelMetres,
    double? LeastLengthMetres,
    string? Remark);

/// <summary>What stands.</summary>
/// <param name="Position">The position judged; null when no position is on record.</param>
/// <param name="TopLevelMetres">As-built top level.</param>
/// <param name="TipLevelMetres">As-built tip level.</param>
/// <param name="LengthMetres">As-built length.</param>
/// <param name="MeanDiameterMetres">Mean diameter that the sand in the pile gives over the as-built length.</param>
/// <param name="Sand">Its sand.</param>
/// <param name="BeyondAlert">True when a value is beyond the site's own alert for it; the checks say which.</param>
/// <param name="Standing">Sequences of the installations it stands on, lowest part first.</param>
/// <param name="EndedAt">When the casing left it.</param>
/// <param name="WorkingDay">Working day of completion.</param>
/// <param name="Shift">Shift of completion.</param>
/// <param name="Barge">Barge that completed it.</param>
/// <param name="Casing">Casing that completed it.</param>
/// <param name="SetUp">Set-up from which it was completed.</param>
public sealed record AsBuiltPile(
    JudgedPlace? Position,
    double? TopLevelMetres,
    double? TipLevelMetres,
    double? LengthMetres,
    double? MeanDiameterMetres,
    SandOfPile Sand,
    bool BeyondAlert,
    IReadOnlyList<long> Standing,
    Instant? EndedAt,
    LocalDate? WorkingDay,
    string? Shift,
    string? Barge,
    int? Casing,
    string? SetUp);

/// <summary>The position a pile is judged by.</summary>
/// <param name="Sequence">The installation it comes from.</param>
/// <param name="Moment">Moment of the position.</param>
/// <param name="Place">The position.</param>
/// <param name="Deviation">As-built minus planned.</param>
/// <param name="UncertaintyMetres">Uncertainty (95 %).</param>
/// <param name="UncertaintyAssumed">True when the record states none and the site's own value was taken.</param>
/// <param name="Comparable">False when it may not be held against the limit.</param>
public sealed record JudgedPlace(
    long Sequence,
    PositionMoment Moment,
    PlaceInFrames Place,
    PositionDeviation Deviation,
    double UncertaintyMetres,
    bool UncertaintyAssumed,
    bool Comparable);

/// <summary>Sand of one pile, cubic metres. In casing is loose volume; in pile is what stands, that volume times C.</summary>
/// <param name="InCasing">Loose volume in the casing, over the installations it stands on.</param>
/// <param name="InPile">Volume in the pile.</param>
/// <param name="Design">Design volume in the pile for the as-built length.</param>
/// <param name="Source">The sand source whose C was used; null where the settings no longer name it.</param>
public sealed record SandOfPile(double? InCasing, double? InPile, double? Design, SandSource? Source);

/// <summary>One installation that concerns a pile.</summary>
/// <param name="Sequence">Its record.</param>
/// <param name="Batch">Its batch.</param>
/// <param name="FileName">File of the batch.</param>
/// <param name="Line">Line of the file.</param>
/// <param name="RecordedAt">When it came in.</param>
/// <param name="RecordedBy">Who brought it in.</param>
/// <param name="Recorded">What the record says, as it came in.</param>
/// <param name="TouchDown">Position at touch-down, held against this pile.</param>
/// <param name="EndOfPenetration">Position at the end of penetration, held against this pile.</param>
/// <param name="Match">How it stands to the design.</param>
/// <param name="Adopted">The pile it is taken for.</param>
/// <param name="Nearest">The planned pile nearest to it within reach.</param>
/// <param name="DistanceToNamedMetres">Distance to the pile its number names.</param>
/// <param name="DistanceToNearestMetres">Distance to the nearest planned pile.</param>
/// <param name="SameAs">The record it repeats.</param>
/// <param name="WaitsForDecision">True while a person has to decide which pile it is.</param>
/// <param name="Stands">True when its pile stands on it.</param>
/// <param name="WorkingDay">Working day of its end.</param>
/// <param name="Shift">Shift of its end.</param>
/// <param name="AdjustmentRevision">Adjustment by which its positions were put on the site grid.</param>
public sealed record PileAttempt(
    long Sequence,
    long Batch,
    string FileName,
    long Line,
    Instant RecordedAt,
    string RecordedBy,
    Installation Recorded,
    AttemptPosition? TouchDown,
    AttemptPosition? EndOfPenetration,
    MatchOutcome Match,
    string? Adopted,
    string? Nearest,
    double? DistanceToNamedMetres,
    double? DistanceToNearestMetres,
    long? SameAs,
    bool WaitsForDecision,
    bool Stands,
    LocalDate? WorkingDay,
    string? Shift,
    int AdjustmentRevision);

/// <summary>A recorded position of an attempt.</summary>
/// <param name="Place">The position in the three frames.</param>
/// <param name="Deviation">Position minus design position of the pile in question.</param>
public sealed record AttemptPosition(PlaceInFrames Place, PositionDeviation Deviation);

/// <summary>A record that concerns a pile.</summary>
/// <param name="Sequence">Its place in the site's sequence.</param>
/// <param name="RecordedAt">When it was recorded.</param>
/// <param name="RecordedBy">Who recorded it, by name.</param>
/// <param name="Kind">What kind of record it is.</param>
/// <param name="What">What it says of the pile.</param>
/// <param name="Batch">The batch it came in with or speaks of.</param>
/// <param name="FileName">File of that batch.</param>
/// <param name="Line">Line of the file.</param>
/// <param name="Counts">False when its batch was withdrawn or a later record took its place.</param>
/// <param name="WholeSite">True for a record that concerns every pile of the site.</param>
public sealed record HistoryLine(
    long Sequence,
    Instant RecordedAt,
    string RecordedBy,
    RecordKind Kind,
    string What,
    long? Batch,
    string? FileName,
    long? Line,
    bool Counts,
    bool WholeSite);

/// <summary>Piles before and after one.</summary>
/// <param name="PreviousNumber">The one before by number.</param>
/// <param name="NextNumber">The one after by number.</param>
/// <param name="BuiltBefore">The one the same barge completed before it.</param>
/// <param name="BuiltAfter">The one the same barge completed after it.</param>
public sealed record NeighbourNumbers(string? PreviousNumber, string? NextNumber, string? BuiltBefore, string? BuiltAfter);
