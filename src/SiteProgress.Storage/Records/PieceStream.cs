using Npgsql;

namespace SiteProgress.Storage.Records;

/// <summary>Reads an uploaded file piece by piece, forward only.</summary>
internal sealed class PieceStream(NpgsqlDataSource store, int site, Guid upload) : Stream
{
    private byte[] _piece = [];
    private int _used;
    private int _next;
    private bool _ended;

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

    public override int Read(Span<byte> buffer)
    {
        if (_used == _piece.Length && !FetchNext()) return 0;
        int count = Math.Min(buffer.Length, _piece.Length - _used);
        _piece.AsSpan(_used, count).CopyTo(buffer);
        _used += count;
        return count;
    }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override void Flush() => throw new NotSupportedException();

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    private bool FetchNext()
    {
        if (_ended) return false;
        using NpgsqlCommand command = store.CreateCommand(
            "select bytes from record.upload_chunk where site = $1 and upload = $2 and ordinal = $3");
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        command.Parameters.Add(new NpgsqlParameter<Guid> { TypedValue = upload });
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = _next++ });
        _piece = command.ExecuteScalar() as byte[] ?? [];
        _used = 0;
        _ended = _piece.Length == 0;
        return !_ended;
    }
}
