using System.Globalization;
using Microsoft.Data.Sqlite;
using SiteProgress.Exchange.Sources;
using SiteProgress.Exchange.TextTables;
using SiteProgress.Exchange.Workbooks;
using SQLitePCL;

namespace SiteProgress.Exchange.MapFiles;

/// <summary>
/// Point layers of a GeoPackage (OGC 12-128r19) as tables. The file is opened read-only and its schema is not trusted: views,
/// virtual tables and computed columns are not read, so that nothing a stranger wrote into the schema is run.
/// </summary>
internal sealed class GeoPackageSource : RowSource
{
    /// <summary>The format in words.</summary>
    public const string Format = "GeoPackage";

    private const int MostLayers = 200;
    private const int LongestValueBytes = 1 << 20;

    private readonly SqliteConnection _connection;
    private readonly CancellationToken _cancellation;
    private readonly List<Layer> _layers = [];
    private readonly ReadingChoices _choices;

    /// <param name="stream">The file.</param>
    /// <param name="choices">Layer and frame a person chose, and the way to a temporary file.</param>
    /// <param name="cancellation">Ends the reading.</param>
    public GeoPackageSource(Stream stream, ReadingChoices choices, CancellationToken cancellation)
        : base(Format, cancellation)
    {
        (_cancellation, _choices) = (cancellation, choices);
        var path = choices.CopyToDisk?.Invoke(stream) ?? throw new BrokenFileException("a text table, workbook or drawing; databases cannot be read here");
        _connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = path, Mode = SqliteOpenMode.ReadOnly, Pooling = false }.ToString());
        try
        {
            Open();
        }
        catch (SqliteException)
        {
            _connection.Dispose();
            throw Damaged();
        }
        catch
        {
            _connection.Dispose();
            throw;
        }

        Ways = [.. _layers.Select((layer, index) => new TableWay(index, layer.Name, '\0'))];
        if (Ways.Count == 0)
            Refusal = "a GeoPackage with a layer of features or attributes in a table of its own; views are not read";
        else if (choices.Table is { } chosen && Ways.All(way => way.Name != chosen))
            Refusal = $"a GeoPackage with the layer \u201C{ImportProblem.Shorten(chosen)}\u201D";
    }

    public override IReadOnlyList<TableWay> Ways { get; }

    public override string TableWord => "layer";

    public override string Describe(TableWay way) => $"a {Format}, layer \u201C{ImportProblem.Shorten(way.Name!)}\u201D";

    public override IReadOnlyList<string> Assumptions(TableWay way)
    {
        var sentences = new List<string> { "Lines are numbers of features in the order of the layer." };
        if (_layers[way.Table].Frame?.Assumption is { } frame)
            sentences.Add(frame);
        if (Ways.Count > 1)
            sentences.Add($"Layers not read: {string.Join(", ", Ways.Where(other => other != way).Take(20).Select(other => $"\u201C{ImportProblem.Shorten(other.Name!)}\u201D"))}.");
        return sentences;
    }

    public override IReadOnlyList<OpenQuestion> Questions(TableWay way) => _layers[way.Table].Frame?.Questions ?? [];

    public override string? Unanswered(TableWay way) => _layers[way.Table].Frame?.Unanswered;

    protected override IEnumerable<SourceRow> Rows(TableWay way) => new Guarded(ReadRows(_layers[way.Table]));

    protected override void Close() => _connection.Dispose();

    private void Open()
    {
        _connection.Open();
        var handle = _connection.Handle!;
        raw.sqlite3_limit(handle, raw.SQLITE_LIMIT_LENGTH, LongestValueBytes);
        raw.sqlite3_limit(handle, raw.SQLITE_LIMIT_ATTACHED, 0);
        raw.sqlite3_progress_handler(handle, 10_000, _ => _cancellation.IsCancellationRequested ? 1 : 0, null);
        Run("pragma trusted_schema = off");
        Run("pragma cell_size_check = on");
        Run("pragma mmap_size = 0");
        if (!IsTable("gpkg_contents") || !IsTable("gpkg_spatial_ref_sys"))
            throw new BrokenFileException("a GeoPackage; this is a database of another kind");
        ReadLayers();
    }

    private void ReadLayers()
    {
        var geometries = (IsTable("gpkg_geometry_columns") ? Query("select table_name, column_name, srs_id from gpkg_geometry_columns") : [])
            .ToLookup(row => Text(row[0]));
        foreach (var row in Query("select table_name, data_type from gpkg_contents order by rowid"))
        {
            var (name, kind) = (Text(row[0]), Text(row[1]));
            if (kind is not ("features" or "attributes") || !IsTable(name))
                continue;
            var geometry = geometries[name].FirstOrDefault();
            _layers.Add(LayerOf(name, Text(geometry?[1]), geometry?[2] as long?));
            if (_layers.Count > MostLayers)
                throw new BrokenFileException("a GeoPackage of at most 200 layers");
        }
    }

    private Layer LayerOf(string name, string geometry, long? srs)
    {
        // Column 6 of table_xinfo marks computed columns and those of virtual tables.
        string[] columns = [.. Query("select name, hidden from pragma_table_xinfo($name)", name).Where(row => row[1] is 0L).Select(row => Text(row[0]))];
        var attributes = columns.Where(column => !string.Equals(column, geometry, StringComparison.OrdinalIgnoreCase)).Take(RecordSplitter.MostCells).ToArray();
        return columns.Length == attributes.Length
            ? new Layer(name, attributes, null, null)
            : new Layer(name, attributes, geometry, Frame(srs));
    }

    private MapFrame Frame(long? srs)
    {
        var stated = srs is null ? null : Query("select organization, organization_coordsys_id from gpkg_spatial_ref_sys where srs_id = $name", srs.Value).FirstOrDefault();
        var isEpsg = string.Equals(Text(stated?[0]), "EPSG", StringComparison.OrdinalIgnoreCase);
        return isEpsg && stated![1] is long code and > 0 and < 1_000_000
            ? MapFrame.Decide(_choices, (int)code, string.Create(CultureInfo.InvariantCulture, $"the layer says EPSG:{code}"))
            : MapFrame.Decide(_choices, null, "the layer names no coordinate system");
    }

    private IEnumerable<SourceRow> ReadRows(Layer layer)
    {
        yield return new SourceRow(0, layer.Frame is { } frame ? [.. frame.Beside(layer.Attributes), frame.First, frame.Second] : layer.Attributes);
        var columns = layer.Geometry is null ? layer.Attributes : [.. layer.Attributes, layer.Geometry];
        using var command = _connection.CreateCommand();
#pragma warning disable CA2100 // Names come from the file and are quoted as SQL quotes names; values never stand in the text.
        command.CommandText = $"select {string.Join(", ", columns.Select(Quoted))} from {Quoted(layer.Name)} not indexed";
#pragma warning restore CA2100
        using var reader = command.ExecuteReader();
        for (long number = 1; reader.Read(); number++)
        {
            _cancellation.ThrowIfCancellationRequested();
            var cells = new string?[layer.Attributes.Count + (layer.Geometry is null ? 0 : 2)];
            for (var column = 0; column < layer.Attributes.Count; column++)
                cells[column] = TextOf(reader.GetValue(column));
            if (layer.Geometry is not null)
            {
                (cells[^2], cells[^1]) = reader.GetValue(layer.Attributes.Count) switch
                {
                    byte[] blob => GeoPackagePoint.Read(blob),
                    DBNull => (null, null),
                    _ => ("unreadable geometry", "unreadable geometry"),
                };
            }

            yield return new SourceRow(number, cells);
        }
    }

    private static string? TextOf(object value) => value switch
    {
        DBNull => null,
        string text => text,
        long whole => whole.ToString(CultureInfo.InvariantCulture),
        double number => CellDates.PlainNumber(number.ToString("R", CultureInfo.InvariantCulture)) ?? number.ToString("R", CultureInfo.InvariantCulture),
        _ => "(bytes)",
    };

    private bool IsTable(string name)
        => Query("select 1 from sqlite_schema where type = 'table' and rootpage > 0 and name = $name collate nocase", name).Count > 0;

    private void Run(string sql) => Query(sql);

    private List<object?[]> Query(string sql, object? name = null)
    {
        using var command = _connection.CreateCommand();
#pragma warning disable CA2100 // Every text is a constant of this class.
        command.CommandText = sql;
#pragma warning restore CA2100
        if (name is not null)
            command.Parameters.AddWithValue("$name", name);
        using var reader = command.ExecuteReader();
        var rows = new List<object?[]>();
        while (reader.Read())
        {
            var row = new object?[reader.FieldCount];
            reader.GetValues(row!);
            rows.Add(row);
            if (rows.Count > 10_000)
                throw new BrokenFileException("a GeoPackage with at most 10,000 entries in its own tables");
        }

        return rows;
    }

    private static string Text(object? value) => value as string ?? "";

    private static string Quoted(string name) => $"\"{name.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";

    private static BrokenFileException Damaged() => new($"a whole {Format}; it cannot be read on here and seems to be damaged or cut off");

    private sealed record Layer(string Name, IReadOnlyList<string> Attributes, string? Geometry, MapFrame? Frame);

    /// <summary>Rows whose making may fail in the library: its failures become those of a file.</summary>
    private sealed class Guarded(IEnumerable<SourceRow> rows) : IEnumerable<SourceRow>
    {
        public IEnumerator<SourceRow> GetEnumerator()
        {
            using var enumerator = rows.GetEnumerator();
            while (true)
            {
                try
                {
                    if (!enumerator.MoveNext())
                        yield break;
                }
                catch (SqliteException)
                {
                    throw Damaged();
                }

                yield return enumerator.Current;
            }
        }

        System.Collections.IEnumerator System.Collections.IEnumerable.GetEnumerator() => GetEnumerator();
    }
}
