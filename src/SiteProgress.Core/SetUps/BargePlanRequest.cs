using NodaTime;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.SetUps;

/// <summary>What a plan for a barge is asked for. Lengths in metres on the site grid.</summary>
/// <param name="Barge">The barge with its casings as they stand now: their spacing is dated and costly to change.</param>
/// <param name="Piles">Outstanding piles it may build; built and forbidden ones are not among them.</param>
/// <param name="HeadingsDegrees">Headings allowed, degrees clockwise from the second axis of the site grid.</param>
/// <param name="FitMetres">How far a casing may stand from a design position.</param>
/// <param name="Reach">How far the barge is winched within one laying of the anchors.</param>
/// <param name="Lies">Where its casings are now; null where unknown.</param>
/// <param name="HoursPerAnchorHours">Hours for one laying of the anchors.</param>
/// <param name="MinutesPerSetUpMinutes">Minutes for one set-up, moving to it included.</param>
/// <param name="Structures">Outlines the hull must keep away from.</param>
/// <param name="ClearanceMetres">Least distance between hull and structure.</param>
/// <param name="Pinned">Set-ups a person has fixed: for each, the pile numbers built together.</param>
/// <param name="DirectionDegrees">Direction in which the anchors advance, clockwise from the second axis; null: whatever is shortest.</param>
/// <param name="Conditions">When it may work and how much water it needs; null where no dates are asked for.</param>
/// <param name="Spacings">Spacings its casings may have; null where they stay as they are.</param>
public sealed record BargePlanRequest(
    Barge Barge,
    IReadOnlyList<OpenPile> Piles,
    IReadOnlyList<double> HeadingsDegrees,
    double FitMetres,
    AnchorReach Reach,
    SiteCoordinate? Lies,
    double HoursPerAnchorHours,
    double MinutesPerSetUpMinutes,
    IReadOnlyList<IReadOnlyList<SiteCoordinate>> Structures,
    double ClearanceMetres,
    IReadOnlyList<IReadOnlyList<string>> Pinned,
    double? DirectionDegrees,
    PlanConditions? Conditions = null,
    SpacingChoice? Spacings = null);

/// <summary>How far the middle of the casings moves within one laying of the anchors.</summary>
/// <param name="AlongMetres">Along the first axis of the site grid.</param>
/// <param name="AcrossMetres">Along the second axis.</param>
public readonly record struct AnchorReach(double AlongMetres, double AcrossMetres);

/// <summary>A plan for a barge: a proposal to the manager, not navigation advice.</summary>
/// <param name="Anchors">Anchor positions in the order in which they are laid.</param>
/// <param name="Bounds">How good the plan is at least.</param>
/// <param name="RowByRow">The same work row by row, for comparison.</param>
/// <param name="Unreached">Piles that no allowed position reaches, by number.</param>
/// <param name="Problems">What of the request could not be kept, as sentences.</param>
/// <param name="Timetable">The plan against the calendar; null where no dates were asked for.</param>
/// <param name="Stretches">Stretches of one casing spacing each, in order; empty where no other spacing was allowed.</param>
public sealed record BargePlanResult(
    IReadOnlyList<PlannedAnchor> Anchors,
    PlanBounds Bounds,
    PlanEffort RowByRow,
    IReadOnlyList<string> Unreached,
    IReadOnlyList<string> Problems,
    PlanTimetable? Timetable = null,
    IReadOnlyList<SpacingStretch>? Stretches = null)
{
    /// <summary>Set-ups in all.</summary>
    public int SetUpCount => Anchors.Sum(anchor => anchor.SetUps.Count);
}

/// <summary>One laying of the anchors.</summary>
/// <param name="Number">Its place in the order, from 1.</param>
/// <param name="Low">Corner of its reach with the smaller coordinates.</param>
/// <param name="High">Corner with the larger ones.</param>
/// <param name="SetUps">Set-ups within it, in order.</param>
/// <param name="Laid">When the anchors are laid; null where no dates were asked for or none was found.</param>
/// <param name="SpacingMetres">Distance between the casings; null where only one was allowed.</param>
/// <param name="Changed">When the casings are set to it before the anchors are laid; null where they stand so already.</param>
public sealed record PlannedAnchor(
    int Number,
    SiteCoordinate Low,
    SiteCoordinate High,
    IReadOnlyList<PlannedSetUp> SetUps,
    PlannedTime? Laid = null,
    double? SpacingMetres = null,
    PlannedTime? Changed = null);

/// <summary>One set-up of a plan.</summary>
/// <param name="Number">Its place in the order of the whole plan, from 1.</param>
/// <param name="HeadingDegrees">Heading, degrees clockwise from the second axis of the site grid.</param>
/// <param name="Reference">The barge's reference point, site grid.</param>
/// <param name="Casings">Middle of the casings, site grid.</param>
/// <param name="Builds">Casing and pile number; casings that are not named stay raised.</param>
/// <param name="Time">When it is taken and left; null where no dates were asked for or none was found.</param>
/// <param name="Keel">Water under the keel; null where nothing was asked about it.</param>
/// <param name="NotDated">Why it has no time although dates were asked for; null otherwise.</param>
public sealed record PlannedSetUp(
    int Number,
    double HeadingDegrees,
    SiteCoordinate Reference,
    SiteCoordinate Casings,
    IReadOnlyList<CasingBuilds> Builds,
    PlannedTime? Time = null,
    KeelRoom? Keel = null,
    string? NotDated = null);

/// <summary>When something of a plan is done.</summary>
/// <param name="Begins">When it begins.</param>
/// <param name="Ends">When it is done.</param>
/// <param name="WaitHours">Working time before it in which the barge waits, hours.</param>
/// <param name="WaitsFor">What it waits for; null where it does not wait.</param>
public sealed record PlannedTime(Instant Begins, Instant Ends, double WaitHours, string? WaitsFor);

/// <summary>A casing and the pile it builds.</summary>
/// <param name="Casing">Casing.</param>
/// <param name="Pile">Pile number.</param>
public readonly record struct CasingBuilds(int Casing, string Pile);

/// <summary>Layings of anchors, set-ups and hours.</summary>
/// <param name="Anchors">Layings of the anchors.</param>
/// <param name="SetUps">Set-ups.</param>
/// <param name="WorkHours">Hours they take by the stated times, changes of the casing spacing among them; no weather, sand or break-down in them.</param>
public readonly record struct PlanEffort(int Anchors, int SetUps, double WorkHours);

/// <summary>The plan against what no plan can beat.</summary>
/// <param name="Plan">The plan's effort.</param>
/// <param name="Least">Bounds by the solver: no plan has fewer anchors, set-ups or hours.</param>
/// <param name="ByCount">Piles divided by casings, rounded up: the plainest bound on set-ups.</param>
/// <param name="WithinAnchors">No choice of set-ups within the anchors of the plan has fewer.</param>
public sealed record PlanBounds(PlanEffort Plan, PlanEffort Least, int ByCount, int WithinAnchors)
{
    /// <summary>How far the plan's set-ups lie above the bound, as a share of the plan's.</summary>
    public double GapRatio => Plan.SetUps == 0 ? 0 : 1 - ((double)Least.SetUps / Plan.SetUps);
}
