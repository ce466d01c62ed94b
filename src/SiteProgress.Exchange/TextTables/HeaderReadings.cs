using System.Security.Cryptography;
using System.Text;
using SiteProgress.Exchange.Sources;

namespace SiteProgress.Exchange.TextTables;

/// <summary>Makes of a found header what a person is shown of it.</summary>
internal static class HeaderReadings
{
    private const int FirstValues = 3;

    /// <summary>The header as a person is shown it.</summary>
    /// <param name="source">The file.</param>
    /// <param name="found">The header.</param>
    public static HeaderReading Of(TableSource source, FoundHeader found)
    {
        var header = found.Header;
        var rows = HeaderSearch.FirstRows(source, header, found.Way, FirstValues);
        return new HeaderReading
        {
            Line = header.Line,
            Table = found.Way.Name,
            Tables = [.. source.Ways.Select(way => way.Name).OfType<string>().Distinct()],
            TableWord = source.TableWord,
            Delimiter = source.IsText ? found.Way.Delimiter : null,
            Columns = [.. Enumerable.Range(0, header.CellCount).Select(cell => ColumnOf(header, cell, rows))],
            Wanted = [.. header.Layout.Columns.Select(column => new WantedColumn(
                column.Key, column.Title, column.Required, column is { Quantity: null, IsTime: false }, column.Quantity?.Units ?? [],
                header.PlaceOf(column) is not null))],
            Shape = ShapeOf(header),
        };
    }

    private static FileColumn ColumnOf(TableHeader header, int cell, IReadOnlyList<string[]> rows)
    {
        var column = header.Layout.Columns.FirstOrDefault(column => header.CellOf(column) == cell);
        var place = column is null ? null : header.PlaceOf(column);
        return new FileColumn(
            cell, ImportProblem.Shorten(header.Titles[cell].Trim()), column?.Key, place?.Unit ?? column?.Quantity?.Unit, place?.Unit is not null,
            [.. rows.Where(row => cell < row.Length).Select(row => ImportProblem.Shorten(row[cell].Trim()))], header.IsInDoubt(cell));
    }

    /// <summary>Rows come and go, sheets are renamed by the day; the titles stay.</summary>
    private static string ShapeOf(TableHeader header)
    {
        var text = string.Join('\n', header.Titles.Take(header.CellCount).Select(title => title.Trim()));
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)).AsSpan(0, 16));
    }
}
