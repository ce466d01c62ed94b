using NodaTime;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Ground;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Records;

/// <summary>What a record says, apart from who recorded it and when.</summary>
public abstract record RecordBody
{
    /// <summary>The kind of the record.</summary>
    public abstract RecordKind Kind { get; }
}

/// <summary>A record that is a row of a batch: one of those that follow the batch's own record.</summary>
public interface IRowBody
{
    /// <summary>Line of the file, from 1.</summary>
    long Line { get; }
}

/// <summary>The site was opened, or its settings revised.</summary>
/// <param name="Settings">The settings, whole.</param>
/// <param name="Drawing">Site drawing as GeoJSON in site-grid metres, where there is one.</param>
/// <param name="First">True for the opening, false for a revision.</param>
/// <param name="Reason">Why they were revised; null for the opening.</param>
public sealed record SettingsBody(SiteSettings Settings, string? Drawing, bool First, string? Reason = null) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => First ? RecordKind.SiteOpened : RecordKind.SettingsRevised;
}

/// <summary>A person was given a role. Names are kept with the account, not in the record.</summary>
/// <param name="Account">The person's account.</param>
/// <param name="Role">The role, as a word.</param>
public sealed record RoleGrantedBody(Guid Account, string Role) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.RoleGranted;
}

/// <summary>A person's role was withdrawn.</summary>
/// <param name="Account">The person's account.</param>
public sealed record RoleWithdrawnBody(Guid Account) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.RoleWithdrawn;
}

/// <summary>An adjustment of the site grid was adopted: its parameters as adopted, and what they rest on.</summary>
/// <param name="Adjustment">The parameters; its revision counts from 1.</param>
/// <param name="EpsgCode">The projected CRS.</param>
/// <param name="CrsWkt">Definition of the projected CRS as well-known text, as the store carried it.</param>
/// <param name="ControlPoints">The control points it rests on.</param>
/// <param name="Reason">Why it was adopted.</param>
/// <param name="Surveyed">
/// The surveyed positions of the control points as they were given, in their order; null where all were given in the projected CRS, as the points have them.
/// </param>
public sealed record AdjustmentBody(
    Adjustment Adjustment, int EpsgCode, string CrsWkt, IReadOnlyList<ControlPoint> ControlPoints, string Reason,
    IReadOnlyList<RecordedPosition>? Surveyed = null) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.AdjustmentAdopted;
}

/// <summary>Records came in together. The rows of the batch are the records that name its sequence.</summary>
/// <param name="Upload">Where the raw bytes are kept.</param>
/// <param name="FileName">Name of the file, as sent.</param>
/// <param name="Sha256">SHA-256 of the raw bytes, lower-case hexadecimal.</param>
/// <param name="Content">What the rows are: planned piles, installations or check measurements.</param>
/// <param name="AdjustmentRevision">The adjustment by which positions of this batch are put on the site grid.</param>
/// <param name="RowsRead">Rows in the file.</param>
/// <param name="RowsRecorded">Rows recorded.</param>
/// <param name="LinesLeftOut">Lines that could not be read and were left out by the person's decision.</param>
/// <param name="Assumptions">What the reader assumed, as shown to the person.</param>
/// <param name="Sender">Name of the sender, where a machine sent it.</param>
/// <param name="Problems">What could not be taken of what a machine sent; a person decides on the problems of a file before it is recorded.</param>
/// <param name="Reading">What a person said of the file, and the shape of its header; absent in batches recorded before it was kept.</param>
/// <param name="Design">For planned piles: what the batch says of itself as a revision of the design; absent in batches recorded before that was asked.</param>
public sealed record BatchBody(
    Guid Upload,
    string FileName,
    string Sha256,
    BatchContent Content,
    int AdjustmentRevision,
    int RowsRead,
    int RowsRecorded,
    IReadOnlyList<long> LinesLeftOut,
    IReadOnlyList<string> Assumptions,
    string? Sender = null,
    IReadOnlyList<RowProblem>? Problems = null,
    BatchReading? Reading = null,
    DesignStatement? Design = null) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.BatchRecorded;
}

/// <summary>
/// How a file was read. The choices are kept with the batch, and from them they are remembered for the next file that the same
/// person brings with a header of the same shape.
/// </summary>
/// <param name="Shape">Shape of the header, 32 hexadecimal digits; absent where the file had none.</param>
/// <param name="Choices">What the person chose where the file does not say; absent where nothing was.</param>
public sealed record BatchReading(string? Shape, IReadOnlyList<NamedChoice>? Choices);

/// <summary>One choice of a person, as addresses write it.</summary>
/// <param name="Name">What was chosen.</param>
/// <param name="Value">How.</param>
public sealed record NamedChoice(string Name, string Value);

/// <summary>What the rows of a batch are.</summary>
public enum BatchContent
{
    /// <summary>A pile schedule.</summary>
    PlannedPiles = 1,

    /// <summary>As-built installations.</summary>
    Installations = 2,

    /// <summary>Independent measurements of casing positions.</summary>
    CheckMeasurements = 3,

    /// <summary>Calibrations of barges and casings.</summary>
    Calibrations = 40,

    /// <summary>Water levels observed at a gauge.</summary>
    WaterLevels = 41,

    /// <summary>Standard penetration tests of a ground investigation.</summary>
    PenetrationTests = 4,

    /// <summary>Sand delivered, stocks measured and sand lost.</summary>
    SandDeliveries = 51,

    /// <summary>Logs of piles, a sample a row.</summary>
    PileLogs = 52,

    /// <summary>Soundings of seabed surveys.</summary>
    SeabedSoundings = 120,

    /// <summary>Hours of barges.</summary>
    DiaryEntries = 90,

    /// <summary>A schedule of progress.</summary>
    PlannedProgress = 91,
}

/// <summary>A batch was withdrawn.</summary>
/// <param name="WithdrawnBatch">Sequence of the batch.</param>
/// <param name="Reason">Why.</param>
public sealed record BatchWithdrawnBody(long WithdrawnBatch, string Reason) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.BatchWithdrawn;
}

/// <summary>One row of a pile schedule.</summary>
/// <param name="Line">Line of the file, from 1.</param>
/// <param name="Pile">What the row says.</param>
public sealed record PilePlannedBody(long Line, AsPlanned Pile) : RecordBody, IRowBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.PilePlanned;
}

/// <summary>One attempt at one pile.</summary>
/// <param name="Line">Line of the file, from 1.</param>
/// <param name="Installation">What the row says.</param>
public sealed record PileInstalledBody(long Line, Installation Installation) : RecordBody, IRowBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.PileInstalled;
}

/// <summary>One independent measurement of a casing position.</summary>
/// <param name="Line">Line of the file, from 1.</param>
/// <param name="Measurement">What the row says.</param>
public sealed record PositionCheckedBody(long Line, CheckMeasurement Measurement) : RecordBody, IRowBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.PositionChecked;
}

/// <summary>One standard penetration test.</summary>
/// <param name="Line">Line of the file, from 1.</param>
/// <param name="Test">What the row says.</param>
public sealed record PenetrationTestedBody(long Line, PenetrationTest Test) : RecordBody, IRowBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.PenetrationTested;
}

/// <summary>One line of a sand account.</summary>
/// <param name="Line">Line of the file, from 1.</param>
/// <param name="Delivery">What the row says.</param>
public sealed record SandDeliveredBody(long Line, SandDelivery Delivery) : RecordBody, IRowBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.SandDelivered;
}
