using NodaTime;

namespace SiteProgress.Core.Records;

/// <summary>A record as it is kept: who, when, what, and its place in the chain.</summary>
/// <param name="Sequence">Place in the site's gapless sequence, from 1.</param>
/// <param name="Kind">What it says.</param>
/// <param name="RecordedAt">When it was recorded, to the microsecond.</param>
/// <param name="RecordedBy">The account that recorded it, or the operator's command.</param>
/// <param name="Batch">Sequence of the batch it belongs to, where it is a row of one.</param>
/// <param name="Body">Canonical bytes of what it says.</param>
/// <param name="Hash">Hash of this record, which covers the hash of the one before.</param>
public sealed record RecordEntry(
    long Sequence,
    RecordKind Kind,
    Instant RecordedAt,
    string RecordedBy,
    long? Batch,
    ReadOnlyMemory<byte> Body,
    ChainHash Hash);
