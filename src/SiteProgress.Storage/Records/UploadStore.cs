using System.Security.Cryptography;
using Npgsql;
using NpgsqlTypes;

namespace SiteProgress.Storage.Records;

/// <summary>Raw bytes of uploaded files, kept in pieces so that no file is ever whole in memory.</summary>
public sealed class UploadStore(NpgsqlDataSource store)
{
    internal const int PieceBytes = 1 << 20;

    /// <summary>Keeps a file. Nothing is kept when it is longer than allowed or its sender breaks off.</summary>
    /// <param name="site">Key of the site.</param>
    /// <param name="upload">Row of the upload; length and hash are filled in.</param>
    /// <param name="content">The bytes.</param>
    /// <param name="mostBytes">Longest file allowed, bytes.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>False when the file is longer than allowed.</returns>
    public async Task<bool> KeepAsync(int site, UploadRow upload, Stream content, long mostBytes, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(upload);
        ArgumentNullException.ThrowIfNull(content);
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        await using NpgsqlTransaction transaction = await connection.BeginTransactionAsync(cancellation);
        using IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        byte[] piece = new byte[PieceBytes];
        int ordinal = 0;
        int read;
        while ((read = await content.ReadAtLeastAsync(piece, PieceBytes, throwOnEndOfStream: false, cancellation)) > 0)
        {
            upload.ByteLength += read;
            if (upload.ByteLength > mostBytes) return false;
            hash.AppendData(piece, 0, read);
            await InsertPieceAsync(connection, site, upload.Upload, ordinal++, piece.AsMemory(0, read), cancellation);
        }

        upload.Sha256 = Convert.ToHexStringLower(hash.GetHashAndReset());
        await InsertUploadAsync(connection, site, upload, cancellation);
        await transaction.CommitAsync(cancellation);
        return true;
    }

    /// <summary>Bytes kept for a site.</summary>
    public async Task<long> BytesKeptAsync(int site, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = store.CreateCommand("select coalesce(sum(byte_length), 0)::bigint from record.upload where site = $1");
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        return (long)(await command.ExecuteScalarAsync(cancellation))!;
    }

    /// <summary>The upload, or null where the site has none of this key.</summary>
    public async Task<UploadRow?> FindAsync(int site, Guid upload, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = store.CreateCommand(
            "select file_name, byte_length, sha256, uploaded_by, uploaded_at from record.upload where site = $1 and upload = $2");
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        command.Parameters.Add(new NpgsqlParameter<Guid> { TypedValue = upload });
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        return await reader.ReadAsync(cancellation)
            ? new UploadRow
            {
                Site = site,
                Upload = upload,
                FileName = reader.GetString(0),
                ByteLength = reader.GetInt64(1),
                Sha256 = reader.GetString(2),
                UploadedBy = reader.GetGuid(3),
                UploadedAt = reader.GetDateTime(4),
            }
            : null;
    }

    /// <summary>A stream over the raw bytes that holds one piece at a time and can go back.</summary>
    public Stream Open(int site, Guid upload) => new PieceStream(store, site, upload);

    private static async Task InsertPieceAsync(NpgsqlConnection connection, int site, Guid upload, int ordinal, ReadOnlyMemory<byte> bytes, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new("insert into record.upload_chunk (site, upload, ordinal, bytes) values ($1, $2, $3, $4)", connection);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        command.Parameters.Add(new NpgsqlParameter<Guid> { TypedValue = upload });
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = ordinal });
        command.Parameters.Add(new NpgsqlParameter { Value = bytes, NpgsqlDbType = NpgsqlDbType.Bytea });
        await command.ExecuteNonQueryAsync(cancellation);
    }

    private static async Task InsertUploadAsync(NpgsqlConnection connection, int site, UploadRow upload, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new(
            "insert into record.upload (site, upload, file_name, byte_length, sha256, uploaded_by, uploaded_at) values ($1, $2, $3, $4, $5, $6, $7)",
            connection);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        command.Parameters.Add(new NpgsqlParameter<Guid> { TypedValue = upload.Upload });
        command.Parameters.Add(new NpgsqlParameter<string> { TypedValue = upload.FileName });
        command.Parameters.Add(new NpgsqlParameter<long> { TypedValue = upload.ByteLength });
        command.Parameters.Add(new NpgsqlParameter<string> { TypedValue = upload.Sha256 });
        command.Parameters.Add(new NpgsqlParameter<Guid> { TypedValue = upload.UploadedBy });
        command.Parameters.Add(new NpgsqlParameter<DateTime> { TypedValue = upload.UploadedAt });
        await command.ExecuteNonQueryAsync(cancellation);
    }
}
