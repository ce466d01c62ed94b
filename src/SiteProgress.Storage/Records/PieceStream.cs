using Npgsql;

namespace SiteProgress.Storage.Records;

/// <summary>Reads an uploaded file piece by piece, and goes to any place of it. One piece is held at a time.</summary>
internal sealed class PieceStream(NpgsqlDataSource store, int site, Guid upload) : Stream
{
    private byte[] _piece = [];
    private long _pieceNumber = -1;
    private long _position;
    private long? _length;

    public override bool CanRead => true;

    public override bool CanSeek => true;

    public override bool CanWrite => false;

    public override long Length => _length ??= ReadLength();

    public override long Position
    {
        get => _position;
        set => _position = value >= 0 ? value : throw new ArgumentOutOfRangeException(nameof(value), value, "A position is not negative.");
    }

    public override int Read(Span<byte> buffer)
    {
        // Every piece but the last has the same length, so a position says which piece it is in.
        (long number, long offset) = Math.DivRem(_position, UploadStore.PieceBytes);
        if (number != _pieceNumber) Fetch(number);
        if (offset >= _piece.Length) return 0;
        int count = Math.Min(buffer.Length, _piece.Length - (int)offset);
        _piece.AsSpan((int)offset, count).CopyTo(buffer);
        _position += count;
        return count;
    }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override void Flush() => throw new NotSupportedException();

    public override long Seek(long offset, SeekOrigin origin)
        => Position = offset + origin switch { SeekOrigin.Begin => 0, SeekOrigin.Current => _position, _ => Length };

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    private void Fetch(long number)
    {
        using NpgsqlCommand command = store.CreateCommand(
            "select bytes from record.upload_chunk where site = $1 and upload = $2 and ordinal = $3");
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        command.Parameters.Add(new NpgsqlParameter<Guid> { TypedValue = upload });
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = (int)Math.Min(number, int.MaxValue) });
        _piece = command.ExecuteScalar() as byte[] ?? [];
        _pieceNumber = number;
    }

    private long ReadLength()
    {
        using NpgsqlCommand command = store.CreateCommand("select byte_length from record.upload where site = $1 and upload = $2");
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        command.Parameters.Add(new NpgsqlParameter<Guid> { TypedValue = upload });
        return command.ExecuteScalar() as long? ?? 0;
    }
}
