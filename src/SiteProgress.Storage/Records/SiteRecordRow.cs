namespace SiteProgress.Storage.Records;

/// <summary>One record, as kept for good: the bytes of what it says and its link in the chain.</summary>
public sealed class SiteRecordRow
{
    /// <summary>Key of the site.</summary>
    public int Site { get; set; }

    /// <summary>Place in the site's gapless sequence.</summary>
    public long Sequence { get; set; }

    /// <summary>Kind of the record, the number of <see cref="Core.Records.RecordKind"/>.</summary>
    public short Kind { get; set; }

    /// <summary>When it was recorded (UTC).</summary>
    public DateTime RecordedAt { get; set; }

    /// <summary>Who recorded it.</summary>
    public required string RecordedBy { get; set; }

    /// <summary>Sequence of the batch it is a row of.</summary>
    public long? Batch { get; set; }

    /// <summary>Canonical bytes.</summary>
    public required byte[] Body { get; set; }

    /// <summary>SHA-256 over the canonical form, which holds the hash before it.</summary>
    public required byte[] Hash { get; set; }
}
