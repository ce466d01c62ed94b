using System.Text.Json;
using SiteProgress.Exchange.Sources;

namespace SiteProgress.Exchange.MapFiles;

/// <summary>The features of a GeoJSON text (RFC 7946), one after the other; never more than one in memory.</summary>
/// <param name="stream">The text, UTF-8 (RFC 8259, section 8.1).</param>
internal sealed class JsonFeatures(Stream stream) : IDisposable
{
    private const int MostFeatureBytes = 16 << 20;

    private byte[] _buffer = new byte[64 * 1024];
    private int _start;
    private int _end;
    private bool _streamEnded;
    private JsonReaderState _state;
    private Place _place;
    private JsonDocument? _document;

    private enum Place
    {
        Beginning,
        Members,
        Features,
        End,
    }

    /// <summary>Value of the member "type"; null before it was met.</summary>
    public string? Type { get; private set; }

    /// <summary>Value of the member "crs" of older texts, as text; null where there is none.</summary>
    public string? Crs { get; private set; }

    /// <summary>Number of features met.</summary>
    public long Count { get; private set; }

    /// <summary>Goes to the next feature.</summary>
    /// <param name="feature">The feature; valid until the next call.</param>
    /// <returns>False at the end.</returns>
    public bool TryNext(out JsonElement feature)
    {
        _document?.Dispose();
        _document = null;
        while (_place is not Place.End)
        {
            Step();
            if (_document is null)
                continue;
            Count++;
            feature = _document.RootElement;
            return true;
        }

        feature = default;
        return false;
    }

    public void Dispose() => _document?.Dispose();

    private void Step()
    {
        while (true)
        {
            if (_place is Place.Beginning && _start == 0 && _end >= 3 && _buffer.AsSpan(0, _end).StartsWith((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF]))
                _start = 3;
            var reader = new Utf8JsonReader(_buffer.AsSpan(_start, _end - _start), _streamEnded, _state);
            if (_end > _start && TryStep(ref reader))
            {
                _start += (int)reader.BytesConsumed;
                _state = reader.CurrentState;
                return;
            }

            if (_streamEnded)
                throw new JsonException("The text ends too early.");
            Fill();
        }
    }

    private bool TryStep(ref Utf8JsonReader reader)
    {
        if (!reader.Read())
            return false;
        switch (_place)
        {
            case Place.Beginning:
                _place = reader.TokenType is JsonTokenType.StartObject ? Place.Members : throw new BrokenFileException("GeoJSON: an object with \u201Cfeatures\u201D");
                return true;
            case Place.Members:
                return TryMember(ref reader);
            case Place.Features when reader.TokenType is JsonTokenType.EndArray:
                _place = Place.Members;
                return true;
            default:
                return reader.TokenType is JsonTokenType.StartObject
                    ? JsonDocument.TryParseValue(ref reader, out _document)
                    : throw new BrokenFileException("GeoJSON whose \u201Cfeatures\u201D are objects");
        }
    }

    private bool TryMember(ref Utf8JsonReader reader)
    {
        if (reader.TokenType is JsonTokenType.EndObject)
        {
            _place = Place.End;
            return true;
        }

        var name = reader.GetString();
        if (!reader.Read())
            return false;
        if (name == "features" && reader.TokenType is JsonTokenType.StartArray)
        {
            _place = Place.Features;
            return true;
        }

        if (name is not ("type" or "crs"))
            return reader.TrySkip();
        if (!JsonDocument.TryParseValue(ref reader, out var value))
            return false;
        using (value)
        {
            if (name == "type")
                Type = value.RootElement.ValueKind is JsonValueKind.String ? value.RootElement.GetString() : "";
            else
                Crs = ImportProblem.Shorten(value.RootElement.GetRawText());
            return true;
        }
    }

    private void Fill()
    {
        _buffer.AsSpan(_start, _end - _start).CopyTo(_buffer);
        (_start, _end) = (0, _end - _start);
        if (_end == _buffer.Length)
        {
            if (_buffer.Length >= MostFeatureBytes)
                throw new BrokenFileException("GeoJSON whose features have at most 16 MB each");
            Array.Resize(ref _buffer, 2 * _buffer.Length);
        }

        var read = stream.Read(_buffer.AsSpan(_end));
        _streamEnded = read == 0;
        _end += read;
    }
}
