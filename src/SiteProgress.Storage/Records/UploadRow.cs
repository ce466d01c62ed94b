namespace SiteProgress.Storage.Records;

/// <summary>A file that was uploaded, with its raw bytes in <see cref="UploadChunkRow"/>; kept whether it is recorded or not.</summary>
public sealed class UploadRow
{
    /// <summary>Key of the site.</summary>
    public int Site { get; set; }

    /// <summary>Key of the upload.</summary>
    public Guid Upload { get; set; }

    /// <summary>Name of the file, as sent.</summary>
    public required string FileName { get; set; }

    /// <summary>Length in bytes.</summary>
    public long ByteLength { get; set; }

    /// <summary>SHA-256 of the raw bytes, lower-case hexadecimal.</summary>
    public required string Sha256 { get; set; }

    /// <summary>Account that sent it.</summary>
    public Guid UploadedBy { get; set; }

    /// <summary>When (UTC).</summary>
    public DateTime UploadedAt { get; set; }
}

/// <summary>A piece of an uploaded file.</summary>
public sealed class UploadChunkRow
{
    /// <summary>Key of the site.</summary>
    public int Site { get; set; }

    /// <summary>Key of the upload.</summary>
    public Guid Upload { get; set; }

    /// <summary>Place of the piece, from 0.</summary>
    public int Ordinal { get; set; }

    /// <summary>The bytes.</summary>
    public required byte[] Bytes { get; set; }
}
