using NodaTime;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>A batch as lists show it.</summary>
/// <param name="Batch">Sequence of the batch.</param>
/// <param name="Upload">The upload its raw bytes are kept under.</param>
/// <param name="FileName">Name of the file.</param>
/// <param name="Sha256">SHA-256 of the raw bytes, lower-case hexadecimal.</param>
/// <param name="Content">What the rows are.</param>
/// <param name="RowsRead">Rows in the file.</param>
/// <param name="RowsRecorded">Rows recorded.</param>
/// <param name="LinesLeftOut">Lines left out by decision.</param>
/// <param name="Assumptions">What the reader assumed.</param>
/// <param name="RecordedAt">When.</param>
/// <param name="RecordedBy">By whom, as a name.</param>
/// <param name="Withdrawal">How it was withdrawn; null while it counts.</param>
/// <param name="Waiting">Installations of the batch that wait for a person's decision.</param>
/// <param name="FirstDay">First working day of its installations.</param>
/// <param name="LastDay">Last working day of its installations.</param>
public sealed record BatchSummary(
    long Batch,
    Guid Upload,
    string FileName,
    string Sha256,
    BatchContent Content,
    int RowsRead,
    int RowsRecorded,
    IReadOnlyList<long> LinesLeftOut,
    IReadOnlyList<string> Assumptions,
    Instant RecordedAt,
    string RecordedBy,
    BatchWithdrawal? Withdrawal,
    int Waiting,
    LocalDate? FirstDay,
    LocalDate? LastDay)
{
    /// <summary>Name of the sender; null where a person brought it in.</summary>
    public string? Sender { get; init; }

    /// <summary>What could not be taken of what a machine sent.</summary>
    public IReadOnlyList<RowProblem> Problems { get; init; } = [];
}

/// <summary>How a batch was withdrawn.</summary>
/// <param name="At">When.</param>
/// <param name="By">By whom, as a name.</param>
/// <param name="Reason">Why.</param>
public sealed record BatchWithdrawal(Instant At, string By, string Reason);

/// <summary>A file that was sent and is not recorded.</summary>
/// <param name="Upload">Key of the upload.</param>
/// <param name="FileName">Name of the file.</param>
/// <param name="ByteLength">Its length, bytes.</param>
/// <param name="UploadedAt">When.</param>
/// <param name="UploadedBy">By whom, as a name.</param>
public sealed record UnrecordedUpload(Guid Upload, string FileName, long ByteLength, Instant UploadedAt, string UploadedBy);

/// <summary>All that a site shows of its records in.</summary>
/// <param name="Batches">Batches, the latest first.</param>
/// <param name="Unrecorded">Files sent and not recorded, the latest first; none for those who may not bring in.</param>
/// <param name="TimeZone">IANA time zone of the site.</param>
public sealed record RecordsInList(IReadOnlyList<BatchSummary> Batches, IReadOnlyList<UnrecordedUpload> Unrecorded, string TimeZone);
