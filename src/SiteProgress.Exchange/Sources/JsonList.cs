using System.Text.Json;

namespace SiteProgress.Exchange.Sources;

/// <summary>The things that a machine's JSON holds: a list of objects, an object whose one member is that list, or one object.</summary>
internal static class JsonList
{
    /// <summary>Reads bytes, and hands the things on.</summary>
    /// <param name="utf8">The bytes, perhaps after a byte order mark.</param>
    /// <param name="read">Reads the things.</param>
    /// <param name="refused">Says what was expected where there are none.</param>
    /// <param name="what">What a thing is, in words.</param>
    public static T Read<T>(ReadOnlyMemory<byte> utf8, Func<IReadOnlyList<JsonElement>, T> read, Func<string, T> refused, string what)
    {
        try
        {
            // RFC 8259, section 8.1: a byte order mark should not be sent and may be ignored by who reads; some programs cannot help writing one.
            if (utf8.Span.StartsWith("\uFEFF"u8)) utf8 = utf8[3..];
            using JsonDocument document = JsonDocument.Parse(utf8, new JsonDocumentOptions { MaxDepth = 16 });
            return In(document.RootElement) is { } list ? read(list) : refused($"a list of objects, one for each {what}");
        }
        catch (InvalidOperationException)
        {
            // Half a surrogate pair, written as an escape, is well-formed JSON and no text.
            return refused("text that can be read; an escape in it stands for half a character");
        }
        catch (JsonException malformed)
        {
            return refused(FormattableString.Invariant($"JSON; it breaks off or is malformed at line {malformed.LineNumber + 1}, byte {malformed.BytePositionInLine + 1}"));
        }
    }

    private static IReadOnlyList<JsonElement>? In(JsonElement root)
    {
        if (root.ValueKind is JsonValueKind.Array) return [.. root.EnumerateArray()];
        if (root.ValueKind is not JsonValueKind.Object) return null;
        JsonProperty[] members = [.. root.EnumerateObject()];
        return members is [{ Value.ValueKind: JsonValueKind.Array } only] ? [.. only.Value.EnumerateArray()] : [root];
    }
}
