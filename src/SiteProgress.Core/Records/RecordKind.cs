namespace SiteProgress.Core.Records;

/// <summary>What a record says. The word is part of the canonical form, so a name here is never changed, only added.</summary>
public enum RecordKind
{
    /// <summary>The site was opened with its settings.</summary>
    SiteOpened = 1,

    /// <summary>The settings were revised.</summary>
    SettingsRevised = 2,

    /// <summary>A person was given a role, or another one.</summary>
    RoleGranted = 3,

    /// <summary>A person's role was withdrawn.</summary>
    RoleWithdrawn = 4,

    /// <summary>An adjustment of the site grid was adopted.</summary>
    AdjustmentAdopted = 5,

    /// <summary>A control point was observed again.</summary>
    ControlPointObserved = 6,

    /// <summary>An observation of a control point was withdrawn; it stays, and no longer counts.</summary>
    ObservationWithdrawn = 7,

    /// <summary>A projected CRS was put at the surveyor's disposal; no adjustment rests on it by that alone.</summary>
    ProjectedCrsOffered = 8,

    /// <summary>Records came in together; the rows follow.</summary>
    BatchRecorded = 10,

    /// <summary>A batch was withdrawn; its records stay, and no longer count.</summary>
    BatchWithdrawn = 11,

    /// <summary>Settings were proposed that the owner's representative has to approve.</summary>
    SettingsProposed = 12,

    /// <summary>Proposed settings were approved or refused.</summary>
    SettingsDecided = 13,

    /// <summary>One row of a pile schedule.</summary>
    PilePlanned = 20,

    /// <summary>One attempt at one pile.</summary>
    PileInstalled = 21,

    /// <summary>One independent measurement of a casing position.</summary>
    PositionChecked = 22,

    /// <summary>A person decided which piles installations are.</summary>
    MatchesDecided = 30,

    /// <summary>A decision on matches was withdrawn.</summary>
    MatchDecisionWithdrawn = 31,

    /// <summary>One calibration of a barge or of one of its casings.</summary>
    Calibrated = 40,

    /// <summary>Readings of a water-level gauge over one day.</summary>
    WaterLevelsObserved = 41,

    /// <summary>How a gauge's readings become levels was revised.</summary>
    GaugeRevised = 42,

    /// <summary>A gauge was checked against an independent reading.</summary>
    GaugeChecked = 43,

    /// <summary>The clock of a recording system was put right for a span.</summary>
    ClockCorrected = 44,

    /// <summary>A key was made for a sender.</summary>
    SenderKeyMade = 45,

    /// <summary>A sender's key was withdrawn.</summary>
    SenderKeyWithdrawn = 46,

    /// <summary>One standard penetration test of a ground investigation.</summary>
    PenetrationTested = 23,

    /// <summary>The record was offered to the owner as a package.</summary>
    HandOverOffered = 110,

    /// <summary>The owner took an offered package over, or did not.</summary>
    HandOverAnswered = 111,

    /// <summary>Soundings of a seabed survey.</summary>
    SeabedSurveyed = 120,

    /// <summary>One line of a sand account: a load delivered, a stock measured, sand lost.</summary>
    SandDelivered = 50,

    /// <summary>The log of one attempt at one pile.</summary>
    PileLogged = 51,

    /// <summary>A revision of recorded positions was proposed.</summary>
    CorrectionProposed = 80,

    /// <summary>A proposed correction was adopted or refused.</summary>
    CorrectionDecided = 81,

    /// <summary>A correction was withdrawn; positions count as recorded again.</summary>
    CorrectionWithdrawn = 82,

    /// <summary>One row of a diary that came in as a file.</summary>
    DiaryEntered = 90,

    /// <summary>A barge's hours of one working day, kept on the page.</summary>
    DiaryDayKept = 91,

    /// <summary>One row of a schedule of progress.</summary>
    ProgressPlanned = 92,

    /// <summary>The plan of work was revised.</summary>
    WorkPlanRevised = 93,

    /// <summary>Notes of a working day.</summary>
    DayNotesKept = 94,

    /// <summary>A daily report was issued.</summary>
    DailyReportIssued = 95,

    /// <summary>A daily report was signed by the contractor's side.</summary>
    DailyReportSigned = 96,

    /// <summary>A daily report was countersigned by the owner's side.</summary>
    DailyReportCountersigned = 97,

    /// <summary>The owner's side disputes a line of a daily report.</summary>
    DailyReportDisputed = 98,

    /// <summary>Findings were gathered into a non-conformance.</summary>
    NonConformanceRaised = 60,

    /// <summary>A disposition was proposed.</summary>
    DispositionProposed = 61,

    /// <summary>A proposed disposition was decided.</summary>
    DispositionDecided = 62,

    /// <summary>Somebody commented on a non-conformance.</summary>
    CommentMade = 63,

    /// <summary>A non-conformance got another due date.</summary>
    DueDateSet = 64,

    /// <summary>Evidence was given that a disposition is done.</summary>
    EvidenceGiven = 65,

    /// <summary>The closure of a non-conformance was verified, or not.</summary>
    ClosureDecided = 66,

    /// <summary>Piles were submitted together.</summary>
    LotSubmitted = 67,

    /// <summary>A lot was sent back.</summary>
    LotReturned = 68,

    /// <summary>Piles were accepted.</summary>
    PilesAccepted = 69,

    /// <summary>The acceptance of piles was withdrawn.</summary>
    AcceptanceWithdrawn = 70,

    /// <summary>A hold point was set.</summary>
    HoldPointSet = 71,

    /// <summary>A hold point was signed.</summary>
    HoldPointSigned = 72,

    /// <summary>A hold point was withdrawn.</summary>
    HoldPointWithdrawn = 73,

    /// <summary>A file was attached as evidence to a pile or a non-conformance.</summary>
    FileAttached = 74,

    /// <summary>An attached file was withdrawn; it stays, and no longer counts as evidence.</summary>
    AttachmentWithdrawn = 75,

    /// <summary>It was proposed what is to become of piles whose design was changed after they were built.</summary>
    DesignChangeProposed = 76,

    /// <summary>Such a proposal was decided.</summary>
    DesignChangeDecided = 77,
}
