using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Records;

/// <summary>A file was attached as evidence to a pile or to a non-conformance. Its bytes are kept with the uploads.</summary>
/// <param name="Pile">Pile number; null where it is attached to a non-conformance.</param>
/// <param name="NonConformance">Number of the non-conformance; null where it is attached to a pile.</param>
/// <param name="Upload">Key of the upload.</param>
/// <param name="FileName">Name of the file, as sent.</param>
/// <param name="Content">What it is by its content.</param>
/// <param name="ByteLength">Length in bytes.</param>
/// <param name="Sha256">SHA-256 of the bytes, lower-case hexadecimal: so the chain covers the file.</param>
/// <param name="Note">What it shows.</param>
public sealed record FileAttachedBody(
    string? Pile, int? NonConformance, Guid Upload, string FileName, AttachmentContent Content, long ByteLength, string Sha256, string Note) : TreatmentBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.FileAttached;
}

/// <summary>An attached file was withdrawn; it stays, and no longer counts as evidence.</summary>
/// <param name="Attachment">Sequence of the record that attached it.</param>
/// <param name="Reason">Why.</param>
public sealed record AttachmentWithdrawnBody(long Attachment, string Reason) : TreatmentBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.AttachmentWithdrawn;
}
