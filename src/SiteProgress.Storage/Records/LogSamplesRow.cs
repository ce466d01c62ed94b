namespace SiteProgress.Storage.Records;

/// <summary>The samples of one recorded log, kept once under the hash of their canonical bytes: columns, not a row a sample.</summary>
public sealed class LogSamplesRow
{
    /// <summary>Key of the site.</summary>
    public int Site { get; set; }

    /// <summary>SHA-256 of the canonical bytes, lower-case hexadecimal.</summary>
    public required string Sha256 { get; set; }

    /// <summary>The canonical bytes, deflated.</summary>
    public required byte[] Packed { get; set; }
}
