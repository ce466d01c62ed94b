using SiteProgress.Core.Piles;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.SandDeliveries;

/// <summary>Columns of a file of sand deliveries, stocks and losses.</summary>
internal sealed class SandDeliveryLayout : TableLayout
{
    /// <param name="axes">Names of the axes of the site grid.</param>
    public SandDeliveryLayout(GridAxes axes)
        : base("sand deliveries", axes)
    {
        At = Time("Time", required: true, "Date and time", "Delivered at");
        Entry = Text("Entry", required: true, "Kind of entry");
        Ticket = Text("Ticket", required: false, "Load", "Delivery note");
        Source = Text("Sand source", required: true, "Source");
        Barge = Text("Barge", required: false, "Vessel");
        Volume = Number("Volume", Quantity.Volume, "Volume loose", "Loose volume");
        Remark = Text("Remark", required: false, "Remarks");
    }

    public Column At { get; }

    public Column Entry { get; }

    public Column Ticket { get; }

    public Column Source { get; }

    public Column Barge { get; }

    public Column Volume { get; }

    public Column Remark { get; }
}

/// <summary>Reads sand deliveries, measured stocks and losses from a text table.</summary>
public static class SandDeliveryReader
{
    private static readonly (string, SandEntry)[] Entries =
    [
        ("delivered", SandEntry.Delivered), ("delivery", SandEntry.Delivered),
        ("stock", SandEntry.StockMeasured), ("stockmeasured", SandEntry.StockMeasured),
        ("wasted", SandEntry.Wasted), ("waste", SandEntry.Wasted), ("lost", SandEntry.Wasted),
    ];

    /// <summary>Reads a file. Time, entry, source and volume must be there: half a line balances nothing.</summary>
    /// <param name="stream">The file.</param>
    /// <param name="choices">What to read with.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>The lines of the account, loose cubic metres, and every problem by line.</returns>
    /// <exception cref="OperationCanceledException">The reading was ended.</exception>
    public static TableReading<SandDelivery> Read(Stream stream, ReadingChoices choices, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(choices);
        var layout = new SandDeliveryLayout(choices.GridAxes);
        string[] barges = [.. choices.Barges.Select(barge => barge.Name)];
        return TableWalk<SandDelivery>.Read(stream, choices, layout, row => ReadRow(row, layout, choices.SandSources, barges), cancellation);
    }

    private static SandDelivery? ReadRow(RowCells row, SandDeliveryLayout layout, IReadOnlyList<string> sources, string[] barges)
    {
        var at = row.Time(layout.At);
        var entry = row.Word(layout.Entry, Entries, "delivered, stock or wasted");
        var ticket = row.Text(layout.Ticket, 80);
        var source = row.Known(layout.Source, sources, "a sand source");
        var barge = row.Known(layout.Barge, barges, "a barge");
        var volume = row.Number(layout.Volume);
        var remark = row.Text(layout.Remark, 500);
        foreach (var column in new[] { layout.At, layout.Entry, layout.Source, layout.Volume })
            row.Require(column, "a value");
        return row.IsBad || at is null || entry is null || source is null || volume is null
            ? null
            : new SandDelivery(ticket, at.Value, entry.Value, source, barge, volume.Value, remark);
    }
}
