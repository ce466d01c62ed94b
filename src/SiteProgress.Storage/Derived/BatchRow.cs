namespace SiteProgress.Storage.Derived;

/// <summary>Records that came in together.</summary>
public sealed class BatchRow : IDerivedRow
{
    /// <inheritdoc />
    public int Site { get; set; }

    /// <summary>Sequence of the batch.</summary>
    public long Batch { get; set; }

    /// <summary>The upload its raw bytes are kept under.</summary>
    public Guid Upload { get; set; }

    /// <summary>Name of the file.</summary>
    public required string FileName { get; set; }

    /// <summary>SHA-256 of the raw bytes, lower-case hexadecimal.</summary>
    public required string Sha256 { get; set; }

    /// <summary>What the rows are, the number of <see cref="Core.Records.BatchContent"/>.</summary>
    public short Content { get; set; }

    /// <summary>Rows in the file.</summary>
    public int RowsRead { get; set; }

    /// <summary>Rows recorded.</summary>
    public int RowsRecorded { get; set; }

    /// <summary>Lines left out by decision.</summary>
    public required long[] LinesLeftOut { get; set; }

    /// <summary>What the reader assumed.</summary>
    public required string[] Assumptions { get; set; }

    /// <summary>Name of the sender, where a machine sent it.</summary>
    public string? Sender { get; set; }

    /// <summary>What could not be taken of what a machine sent, as JSON; null where all could.</summary>
    public string? Problems { get; set; }

    /// <summary>When (UTC).</summary>
    public DateTime RecordedAt { get; set; }

    /// <summary>Who recorded it.</summary>
    public required string RecordedBy { get; set; }

    /// <summary>When it was withdrawn (UTC); null while it counts.</summary>
    public DateTime? WithdrawnAt { get; set; }

    /// <summary>Who withdrew it.</summary>
    public string? WithdrawnBy { get; set; }

    /// <summary>Why it was withdrawn.</summary>
    public string? WithdrawnBecause { get; set; }

    /// <inheritdoc />
    public Guid Digest { get; set; }
}
