using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using SiteProgress.Core.Records;

namespace SiteProgress.Exchange.HandOver;

/// <summary>
/// Records as lines of JSON (RFC 8259), in the order of their sequence. The text of <c>body</c> is the record's body byte for byte
/// as UTF-8, so that the canonical form documented at <see cref="HashChain"/>, and with it the chain, can be made again from a line.
/// </summary>
public static class RecordLines
{
    private static readonly JsonWriterOptions Plain = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };
    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>Writes one record and a line feed.</summary>
    /// <param name="output">Where to.</param>
    /// <param name="record">The record.</param>
    /// <exception cref="DecoderFallbackException">The body is not UTF-8, which no record is.</exception>
    public static void Write(Stream output, RecordEntry record)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(record);
        using (Utf8JsonWriter line = new(output, Plain))
        {
            line.WriteStartObject();
            line.WriteNumber("sequence", record.Sequence);
            line.WriteString("kind", record.Kind.ToString());
            line.WriteString("recorded", HashChain.Time(record.RecordedAt));
            line.WriteString("by", record.RecordedBy);
            line.WriteString("batch", record.Batch?.ToString(CultureInfo.InvariantCulture) ?? "-");
            line.WriteString("hash", record.Hash.ToString());
            line.WriteString("body", Strict.GetString(record.Body.Span));
            line.WriteEndObject();
        }

        output.WriteByte((byte)'\n');
    }
}
