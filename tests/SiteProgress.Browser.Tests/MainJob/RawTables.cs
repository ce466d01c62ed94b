using Npgsql;
using SiteProgress.TestSupport;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>
/// The files of the demonstration as they came, copied row by row into tables of text by PostgreSQL's own COPY. Figures worked
/// out here owe nothing to the product: no reader, no matching, no judging of ours.
/// </summary>
internal sealed class RawTables : IAsyncDisposable
{
    private readonly NpgsqlConnection connection = new(TestCluster.AdministratorConnectionString);

    /// <summary>Opens a connection whose tables vanish with it.</summary>
    public static async Task<RawTables> OpenAsync()
    {
        var tables = new RawTables();
        await tables.connection.OpenAsync();
        return tables;
    }

    /// <summary>
    /// Copies files with one header, parted by commas, semicolons or tabs, into a table whose columns are called as the header says.
    /// Title lines begin with a number sign.
    /// </summary>
    public async Task CopyAsync(string table, params string[] paths)
    {
        var made = false;
        foreach (var path in paths)
        {
            string[] lines = [.. (await File.ReadAllLinesAsync(path)).Where(line => line is not ['#', ..])];
            var delimiter = lines[0].Contains('\t') ? '\t' : lines[0].Contains(';') ? ';' : ',';
            if (!made) await ExecuteAsync($"create temp table {table} ({string.Join(", ", lines[0].Split(delimiter).Select(name => $"\"{name}\" text"))})");
            made = true;
            await using var writer = await connection.BeginTextImportAsync($"copy {table} from stdin (format csv, header, delimiter e'{(delimiter == '\t' ? "\\t" : delimiter)}')");
            foreach (var line in lines) await writer.WriteLineAsync(line);
        }
    }

    /// <summary>Two columns of a query: a word and how many.</summary>
    public async Task<Dictionary<string, long>> CountsAsync(string query)
    {
        await using var command = new NpgsqlCommand(query, connection);
        await using var reader = await command.ExecuteReaderAsync();
        var counts = new Dictionary<string, long>();
        while (await reader.ReadAsync()) counts[reader.GetString(0)] = reader.GetInt64(1);
        return counts;
    }

    public ValueTask DisposeAsync() => connection.DisposeAsync();

    private async Task ExecuteAsync(string statement)
    {
        await using var command = new NpgsqlCommand(statement, connection);
        await command.ExecuteNonQueryAsync();
    }
}
