using System.Buffers;
using System.Security.Cryptography;
using System.Text;
using NodaTime;
using NodaTime.Text;

namespace SiteProgress.Core.Records;

/// <summary>
/// The hash chain of a site. The canonical form of a record is, in ASCII with a line feed after each line:
/// <code>
/// siteprogress record 1
/// site CODE
/// sequence N
/// kind KIND
/// recorded YYYY-MM-DDThh:mm:ss.ffffffZ
/// by WHO
/// batch N        (a hyphen where the record is in no batch)
/// previous HASH  (64 hexadecimal digits; zeros for the first)
/// (an empty line)
/// BODY           (the bytes as stored, to the end)
/// </code>
/// and its hash is the SHA-256 (FIPS 180-4) of these bytes, so anyone can recompute a chain with general tools.
/// </summary>
public static class HashChain
{
    private static readonly InstantPattern Microseconds =
        InstantPattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss.ffffff'Z'");

    /// <summary>The time of a record as its canonical form writes it.</summary>
    public static string Time(Instant recordedAt) => Microseconds.Format(recordedAt);

    /// <summary>The canonical bytes of a record.</summary>
    public static byte[] CanonicalBytes(
        string siteCode, long sequence, RecordKind kind, Instant recordedAt, string recordedBy, long? batch,
        ChainHash previous, ReadOnlySpan<byte> body)
    {
        ArgumentNullException.ThrowIfNull(previous);
        string head = string.Create(
            System.Globalization.CultureInfo.InvariantCulture,
            $"siteprogress record 1\nsite {siteCode}\nsequence {sequence}\nkind {kind}\nrecorded {Time(recordedAt)}\nby {recordedBy}\nbatch {(batch is null ? "-" : batch.Value)}\nprevious {previous}\n\n");
        byte[] bytes = new byte[Encoding.ASCII.GetByteCount(head) + body.Length];
        int written = Encoding.ASCII.GetBytes(head, bytes);
        body.CopyTo(bytes.AsSpan(written));
        return bytes;
    }

    /// <summary>The hash of a record that follows <paramref name="previous"/>.</summary>
    public static ChainHash Next(
        string siteCode, long sequence, RecordKind kind, Instant recordedAt, string recordedBy, long? batch,
        ChainHash previous, ReadOnlySpan<byte> body)
        => new(SHA256.HashData(CanonicalBytes(siteCode, sequence, kind, recordedAt, recordedBy, batch, previous, body)));

    /// <summary>
    /// Follows records in order and names the first that breaks the chain: a gap in the sequence, or a hash that the
    /// record and its predecessor do not give.
    /// </summary>
    /// <returns>The first break, or null when the chain holds.</returns>
    public static ChainBreak? FirstBreak(string siteCode, IEnumerable<RecordEntry> records)
    {
        ArgumentNullException.ThrowIfNull(records);
        ChainHash previous = ChainHash.BeforeFirst;
        long expected = 1;
        foreach (RecordEntry record in records)
        {
            if (record.Sequence != expected)
            {
                return new ChainBreak(expected, $"Record {expected} is missing; the next one found is {record.Sequence}.");
            }

            ChainHash hash = Next(
                siteCode, record.Sequence, record.Kind, record.RecordedAt, record.RecordedBy, record.Batch, previous, record.Body.Span);
            if (!hash.Equals(record.Hash))
            {
                return new ChainBreak(expected, $"Record {expected} does not give the hash that was kept with it: it, or a record before it, was altered.");
            }

            previous = hash;
            expected++;
        }

        return null;
    }
}

/// <summary>Where a chain breaks first.</summary>
/// <param name="Sequence">Sequence of the record.</param>
/// <param name="Reason">What is wrong there.</param>
public sealed record ChainBreak(long Sequence, string Reason);
