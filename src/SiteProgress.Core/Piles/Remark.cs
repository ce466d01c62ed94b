using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace SiteProgress.Core.Piles;

/// <summary>
/// What somebody remarked, in any length. A text of a large file is kept packed together with others by a <see cref="RemarkShelf"/>
/// and unpacked when it is asked for, so that remarks nobody is looking at take little memory. In a record it is a plain text.
/// </summary>
[JsonConverter(typeof(RemarkJson))]
public sealed class Remark : IEquatable<Remark>
{
    private readonly string? _text;
    private readonly PackedTexts? _packed;
    private readonly int _offset;
    private readonly int _length;

    /// <summary>A remark that is kept as it stands.</summary>
    public Remark(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        _text = text;
    }

    internal Remark(PackedTexts packed, int offset, int length) => (_packed, _offset, _length) = (packed, offset, length);

    /// <summary>The text.</summary>
    public string Text => _text ?? _packed!.Read(_offset, _length);

    /// <summary>A text as a remark; none where there is none.</summary>
    [return: NotNullIfNotNull(nameof(text))]
    public static implicit operator Remark?(string? text) => text is null ? null : new Remark(text);

    /// <summary>The text of a remark; null where there is none.</summary>
    [return: NotNullIfNotNull(nameof(remark))]
    public static implicit operator string?(Remark? remark) => remark?.Text;

    /// <inheritdoc cref="Equals(Remark?)"/>
    public static bool operator ==(Remark? one, Remark? other) => one is null ? other is null : one.Equals(other);

    /// <summary>The opposite of being the same text.</summary>
    public static bool operator !=(Remark? one, Remark? other) => !(one == other);

    /// <summary>True where both say the same text.</summary>
    public bool Equals(Remark? other) => other is not null && (ReferenceEquals(this, other) || Text == other.Text);

    /// <inheritdoc />
    public override bool Equals(object? obj) => obj is Remark other && Equals(other);

    /// <inheritdoc />
    public override int GetHashCode() => Text.GetHashCode(StringComparison.Ordinal);

    /// <summary>The text.</summary>
    public override string ToString() => Text;
}

/// <summary>Writes a remark as the text it is.</summary>
internal sealed class RemarkJson : JsonConverter<Remark>
{
    public override Remark? Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
        => reader.TokenType == JsonTokenType.String ? new Remark(reader.GetString()!) : throw new JsonException("A remark is a text.");

    public override void Write(Utf8JsonWriter writer, Remark value, JsonSerializerOptions options) => writer.WriteStringValue(value.Text);
}
