using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using Npgsql;
using NpgsqlTypes;

namespace SiteProgress.Storage.Derived;

/// <summary>
/// One table of derived state. It writes only the rows whose digest changed, by bulk copy, and can compare what stands in
/// the table with what should. Columns, types and key come from the one model of the context.
/// </summary>
/// <typeparam name="TRow">Row type.</typeparam>
public sealed class DerivedTable<TRow>
    where TRow : class, IDerivedRow
{
    // Rows of a large site are made, looked at and written a part at a time: all at once they would take a gigabyte.
    private const int RowsAtOnce = 4_096;

    private readonly IProperty[] _columns;
    private readonly IProperty[] _key;
    private readonly Func<TRow, object?>[] _values;
    private readonly string _columnList;

    /// <summary>Reads the shape of the table from the model.</summary>
    public DerivedTable(IModel model)
    {
        ArgumentNullException.ThrowIfNull(model);
        IEntityType entity = model.FindEntityType(typeof(TRow))
            ?? throw new ArgumentException($"{typeof(TRow).Name} is not in the model.", nameof(model));
        Name = $"{entity.GetSchema()}.{entity.GetTableName()}";
        _columns = entity.GetProperties().ToArray();
        _key = entity.FindPrimaryKey()!.Properties.Where(property => property.Name != nameof(IDerivedRow.Site)).ToArray();
        _values = _columns.Select(Value).ToArray();
        _columnList = string.Join(", ", _columns.Select(column => column.GetColumnName()));
    }

    /// <summary>Name of the table with its schema.</summary>
    public string Name { get; }

    /// <summary>Makes the table say what the rows say, touching only what differs.</summary>
    /// <returns>How many rows were written or removed.</returns>
    public async Task<int> WriteAsync(NpgsqlConnection connection, int site, IEnumerable<TRow> rows, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(rows);
        Dictionary<RowKey, Guid> standing = await DigestsAsync(connection, site, cancellation);
        int written = 0;
        List<TRow> changed = [];
        List<RowKey> gone = [];
        foreach (TRow row in Stamped(site, rows))
        {
            RowKey key = KeyOf(row);
            bool stands = standing.Remove(key, out Guid digestBefore);
            if (stands && digestBefore == row.Digest) continue;
            if (stands) gone.Add(key);
            changed.Add(row);
            if (changed.Count == RowsAtOnce) await PutAsync();
        }

        await PutAsync();
        written += standing.Count;
        await DeleteAsync(connection, site, [.. standing.Keys], cancellation);
        return written;

        async Task PutAsync()
        {
            await DeleteAsync(connection, site, gone, cancellation);
            await CopyAsync(connection, Name, changed, cancellation);
            written += changed.Count;
            gone.Clear();
            changed.Clear();
        }
    }

    /// <summary>Compares every column of every row that stands with what should stand.</summary>
    /// <returns>Rows that stand and should not, or differ; and rows that should stand and do not, or differ.</returns>
    public async Task<TableDifference> CompareAsync(NpgsqlConnection connection, int site, IEnumerable<TRow> rows, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(rows);
        string should = $"should_{Name.Replace('.', '_')}";
        await ExecuteAsync(connection, $"create temporary table {should} (like {Name}) on commit drop", cancellation);
        await CopyAsync(connection, should, Stamped(site, rows), cancellation);
        await using NpgsqlCommand command = new(
            $"""
            select (select count(*) from (select {_columnList} from {Name} where site = $1 except select {_columnList} from {should}) a),
                   (select count(*) from (select {_columnList} from {should} except select {_columnList} from {Name} where site = $1) b)
            """,
            connection);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        await reader.ReadAsync(cancellation);
        return new TableDifference(Name, reader.GetInt64(0), reader.GetInt64(1));
    }

    private IEnumerable<TRow> Stamped(int site, IEnumerable<TRow> rows)
    {
        RowDigest digest = new();
        foreach (TRow row in rows)
        {
            (row.Site, row.Digest) = (site, Guid.Empty);
            row.Digest = digest.Of(_values.Select(value => value(row)));
            yield return row;
        }
    }

    private async Task<Dictionary<RowKey, Guid>> DigestsAsync(NpgsqlConnection connection, int site, CancellationToken cancellation)
    {
        string keys = string.Join(", ", _key.Select(property => property.GetColumnName()));
        await using NpgsqlCommand command = new($"select digest, {keys} from {Name} where site = $1", connection);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        Dictionary<RowKey, Guid> digests = [];
        while (await reader.ReadAsync(cancellation))
        {
            object[] values = new object[_key.Length];
            for (int index = 0; index < values.Length; index++)
            {
                values[index] = _key[index].ClrType == typeof(DateOnly) ? reader.GetFieldValue<DateOnly>(index + 1) : reader.GetValue(index + 1);
            }

            digests[new RowKey(values)] = reader.GetGuid(0);
        }

        return digests;
    }

    private async Task DeleteAsync(NpgsqlConnection connection, int site, List<RowKey> keys, CancellationToken cancellation)
    {
        if (keys.Count == 0) return;
        string match = string.Join(" and ", _key.Select((property, index) => $"t.{property.GetColumnName()} = k.c{index}"));
        string columns = string.Join(", ", _key.Select((_, index) => $"c{index}"));
        string arrays = string.Join(", ", _key.Select((property, index) => $"${index + 2}::{property.GetColumnType()}[]"));
        await using NpgsqlCommand command = new(
            $"delete from {Name} t using unnest({arrays}) as k({columns}) where t.site = $1 and {match}", connection);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        for (int index = 0; index < _key.Length; index++)
        {
            Array values = Array.CreateInstance(_key[index].ClrType, keys.Count);
            for (int row = 0; row < keys.Count; row++) values.SetValue(keys[row].Values[index], row);
            command.Parameters.Add(new NpgsqlParameter { Value = values });
        }

        await command.ExecuteNonQueryAsync(cancellation);
    }

    private async Task CopyAsync(NpgsqlConnection connection, string table, IEnumerable<TRow> rows, CancellationToken cancellation)
    {
        if (rows is IReadOnlyCollection<TRow> { Count: 0 }) return;
        string[] types = _columns.Select(column => column.GetColumnType()).ToArray();
        await using NpgsqlBinaryImporter importer = await connection.BeginBinaryImportAsync(
            $"copy {table} ({_columnList}) from stdin (format binary)", cancellation);
        foreach (TRow row in rows)
        {
            await importer.StartRowAsync(cancellation);
            for (int index = 0; index < _values.Length; index++)
            {
                object? value = _values[index](row);
                if (value is null) await importer.WriteNullAsync(cancellation);
                else if (types[index] == "jsonb") await importer.WriteAsync((string)value, NpgsqlDbType.Jsonb, cancellation);
                else if (types[index].StartsWith("geometry", StringComparison.Ordinal)) await importer.WriteAsync(value, NpgsqlDbType.Geometry, cancellation);
                else await importer.WriteAsync(value, types[index], cancellation);
            }
        }

        await importer.CompleteAsync(cancellation);
    }

    private RowKey KeyOf(TRow row) => new(_key.Select(property => property.GetGetter().GetClrValue(row)!).ToArray());

    private static Func<TRow, object?> Value(IProperty property)
    {
        IClrPropertyGetter getter = property.GetGetter();
        return row => getter.GetClrValue(row);
    }

    private static async Task ExecuteAsync(NpgsqlConnection connection, string sql, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new(sql, connection);
        await command.ExecuteNonQueryAsync(cancellation);
    }

    /// <summary>Key of a row without its site.</summary>
    private readonly struct RowKey(object[] values) : IEquatable<RowKey>
    {
        public object[] Values { get; } = values;

        public bool Equals(RowKey other) => Values.AsSpan().SequenceEqual(other.Values);

        public override bool Equals(object? obj) => obj is RowKey other && Equals(other);

        public override int GetHashCode()
        {
            HashCode hash = default;
            foreach (object value in Values) hash.Add(value);
            return hash.ToHashCode();
        }
    }
}

/// <summary>How a table of derived state differs from what the records give.</summary>
/// <param name="Table">The table.</param>
/// <param name="Unfounded">Rows that stand in it and do not follow from the records.</param>
/// <param name="Absent">Rows that follow from the records and do not stand in it.</param>
public sealed record TableDifference(string Table, long Unfounded, long Absent)
{
    /// <summary>True when there is no difference.</summary>
    public bool Identical => Unfounded == 0 && Absent == 0;
}
