namespace SiteProgress.Core.Records;

/// <summary>
/// A key was made for a sender: a machine that may add records of named barges to the site and read nothing. The key itself, and
/// even its hash, are kept elsewhere; the record names it.
/// </summary>
/// <param name="Key">Names the key.</param>
/// <param name="Sender">Name of the sender; several keys may be made for one.</param>
/// <param name="Barges">Barges whose records it may add.</param>
public sealed record SenderKeyMadeBody(Guid Key, string Sender, IReadOnlyList<string> Barges) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.SenderKeyMade;
}

/// <summary>A sender's key was withdrawn; it opens nothing any more.</summary>
/// <param name="Key">The key.</param>
/// <param name="Reason">Why.</param>
public sealed record SenderKeyWithdrawnBody(Guid Key, string Reason) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.SenderKeyWithdrawn;
}

/// <summary>What could not be taken of a row that a sender sent.</summary>
/// <param name="Row">Row of what was sent, from 1; for a text table its line.</param>
/// <param name="RecordId">The sender's identifier of the record, where it could be read.</param>
/// <param name="Column">Title of the column, where one is meant.</param>
/// <param name="Found">What stood there, shortened.</param>
/// <param name="Expected">What was expected.</param>
public sealed record RowProblem(long Row, string? RecordId, string? Column, string? Found, string Expected);
