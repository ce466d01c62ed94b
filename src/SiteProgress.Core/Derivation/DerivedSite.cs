using SiteProgress.Core.Checks;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Levels;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;

namespace SiteProgress.Core.Derivation;

/// <summary>All that follows from the records of a site. Every page, report and answer reads this and nothing else.</summary>
/// <param name="History">The records it follows from.</param>
/// <param name="Frames">The ways between the site's frames; null before an adjustment is adopted.</param>
/// <param name="Piles">Planned piles in force, judged, by number.</param>
/// <param name="Installations">Recorded installations that count, by sequence.</param>
/// <param name="Production">Production by working day.</param>
/// <param name="PositionChecks">Check measurements, by sequence.</param>
public sealed record DerivedSite(
    SiteHistory History,
    SiteFrames? Frames,
    IReadOnlyList<DerivedPile> Piles,
    IReadOnlyList<DerivedInstallation> Installations,
    IReadOnlyList<DayProduction> Production,
    IReadOnlyList<DerivedPositionCheck> PositionChecks)
{
    /// <summary>The design through its revisions; null before an adjustment is adopted.</summary>
    public SiteDesign? Design { get; init; }

    /// <summary>Diary, schedule and daily reports in force.</summary>
    public DerivedProgress Progress { get; init; } = DerivedProgress.Empty;

    /// <summary>Sand from each measured stock to the next, in order of time.</summary>
    public IReadOnlyList<SandPeriod> SandPeriods { get; init; } = [];

    /// <summary>Recorded logs that count, by sequence.</summary>
    public IReadOnlyList<DerivedLog> Logs { get; init; } = [];

    /// <summary>What was decided about the piles.</summary>
    public TreatedSite Treated { get; init; } = TreatedSite.None;
}

/// <summary>A planned pile as judged, in all three frames.</summary>
/// <param name="Judgement">The judgement.</param>
/// <param name="Projected">Design position in the projected CRS.</param>
/// <param name="Geographic">Design position, geographic.</param>
/// <param name="AsBuilt">Judged as-built position in the projected CRS.</param>
/// <param name="Completed">Working day and shift of the installation that completed it.</param>
public sealed record DerivedPile(
    PileJudgement Judgement,
    ProjectedCoordinate Projected,
    GeographicCoordinate Geographic,
    ProjectedCoordinate? AsBuilt,
    WorkingMoment? Completed)
{
    /// <summary>What was decided about it.</summary>
    public PileTreatment Treatment { get; init; } = PileTreatment.Untouched(Judgement.State);

    /// <summary>How its design stands to what was built.</summary>
    public PileDesign Design { get; init; } = PileDesign.Unrevised;
}

/// <summary>An installation with its match, in all three frames.</summary>
/// <param name="Located">The installation on the site grid.</param>
/// <param name="Line">Line of its file.</param>
/// <param name="Match">Which planned pile it is, or why that is not settled.</param>
/// <param name="Projected">Position in the projected CRS in force, by the adjustment of its own record.</param>
/// <param name="Geographic">Position, geographic; null where it lies outside the projection's domain.</param>
/// <param name="Ended">Working day and shift of its end.</param>
/// <param name="Stands">True when its pile stands on it.</param>
public sealed record DerivedInstallation(
    LocatedInstallation Located,
    long Line,
    InstallationMatch Match,
    ProjectedCoordinate? Projected,
    GeographicCoordinate? Geographic,
    WorkingMoment? Ended,
    bool Stands)
{
    /// <summary>The correction its times were put right by; null where its clock was right.</summary>
    public Kept<ClockCorrectedBody>? Clock { get; init; }

    /// <summary>Its levels as derived from recorded depths; null where it holds none.</summary>
    public DerivedLevels? Levels { get; init; }
}

/// <summary>A check measurement with what it shows.</summary>
/// <param name="Row">The measurement as recorded.</param>
/// <param name="Difference">Recorded minus measured position.</param>
public sealed record DerivedPositionCheck(BatchRow<CheckMeasurement> Row, PositionDeviation Difference);
