using Npgsql;
using NpgsqlTypes;

namespace SiteProgress.Jobs.Sites;

/// <summary>Short words for reading rows, so that a query and what becomes of it stand side by side.</summary>
internal static class RowReading
{
    /// <summary>Runs a query and makes one thing of each row.</summary>
    /// <param name="store">The store.</param>
    /// <param name="sql">The query, with parameters by position.</param>
    /// <param name="make">Makes the thing.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <param name="values">Values of the parameters.</param>
    public static async Task<List<T>> ReadAsync<T>(
        this NpgsqlDataSource store, string sql, Func<NpgsqlDataReader, T> make, CancellationToken cancellation, params NpgsqlParameter[] values)
    {
        await using NpgsqlCommand command = store.CreateCommand(sql);
        command.Parameters.AddRange(values);
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        List<T> made = [];
        while (await reader.ReadAsync(cancellation)) made.Add(make(reader));
        return made;
    }

    /// <summary>A parameter; null travels with its type.</summary>
    public static NpgsqlParameter Value(object? value, NpgsqlDbType type) => new() { Value = value ?? DBNull.Value, NpgsqlDbType = type };

    /// <summary>The key of the site, first of every query.</summary>
    public static NpgsqlParameter Site(int site) => Value(site, NpgsqlDbType.Integer);

    /// <summary>A text or null.</summary>
    public static NpgsqlParameter Text(string? text) => Value(text, NpgsqlDbType.Text);

    /// <summary>A day or null.</summary>
    public static NpgsqlParameter Day(DateOnly? day) => Value(day, NpgsqlDbType.Date);

    /// <summary>A whole number or null.</summary>
    public static NpgsqlParameter Whole(int? number) => Value(number, NpgsqlDbType.Integer);

    /// <summary>Text of a column, or null.</summary>
    public static string? TextOrNull(this NpgsqlDataReader row, int column) => row.IsDBNull(column) ? null : row.GetString(column);

    /// <summary>Number of a column, or null.</summary>
    public static double? NumberOrNull(this NpgsqlDataReader row, int column) => row.IsDBNull(column) ? null : row.GetDouble(column);

    /// <summary>Whole number of a column, or null.</summary>
    public static int? WholeOrNull(this NpgsqlDataReader row, int column) => row.IsDBNull(column) ? null : row.GetInt32(column);

    /// <summary>Day of a column, or null.</summary>
    public static DateOnly? DayOrNull(this NpgsqlDataReader row, int column) => row.IsDBNull(column) ? null : row.GetFieldValue<DateOnly>(column);

    /// <summary>Instant of a column (UTC), or null.</summary>
    public static DateTime? MomentOrNull(this NpgsqlDataReader row, int column) => row.IsDBNull(column) ? null : row.GetDateTime(column);
}
