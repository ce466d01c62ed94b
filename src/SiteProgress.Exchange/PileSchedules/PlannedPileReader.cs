using System.Globalization;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.PileSchedules;

/// <summary>Reads a pile schedule from a text table.</summary>
public static class PlannedPileReader
{
    /// <summary>
    /// Reads planned piles: number, zone and position of every row, and what else the schedule holds. A level, diameter or
    /// least length that is blank stays null: the zone's applies.
    /// </summary>
    /// <param name="stream">The file.</param>
    /// <param name="choices">What to read with.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>Piles in the frame of the file, levels in metres above the site's datum, and every problem by line.</returns>
    /// <exception cref="OperationCanceledException">The reading was ended.</exception>
    public static TableReading<AsPlanned> Read(Stream stream, ReadingChoices choices, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(choices);
        var layout = new PlannedPileLayout(choices.GridAxes);
        var lines = new Dictionary<string, long>(StringComparer.Ordinal);
        return TableWalk<AsPlanned>.Read(stream, choices, layout, row => ReadRow(row, layout, choices, lines), cancellation);
    }

    private static AsPlanned? ReadRow(
        RowCells row, PlannedPileLayout layout, ReadingChoices choices, Dictionary<string, long> lines)
    {
        var number = row.PileNumber(layout.PileNumber);
        var zone = row.Known(layout.Zone, choices.Zones, "a zone");
        var position = row.Position(layout.DesignPosition);
        var diameter = row.Number(layout.Diameter);
        var top = row.Number(layout.TopLevel);
        var tip = row.Number(layout.TipLevel);
        var leastLength = row.Number(layout.LeastLength);
        var remark = row.Remark(layout.Remark, 2_000);
        row.Require(layout.PileNumber, "a pile number");
        row.Require(layout.Zone, $"a zone of this site: {string.Join(", ", choices.Zones)}");
        if (position is null && !row.IsBad)
            row.Problem(layout.DesignPosition.Title, "", "both coordinates of the design position");
        if (number is not null && !lines.TryAdd(number, row.Line))
            row.Problem(layout.PileNumber.Title, number, string.Create(CultureInfo.InvariantCulture, $"each pile number once; line {lines[number]} has it already"));
        if (row.IsBad || number is null || zone is null || position is null)
            return null;

        if (tip >= top)
            row.Warn(layout.TipLevel.Title, tip.Value.ToString(CultureInfo.InvariantCulture), "a tip level below the top level; is it a depth?");
        return new AsPlanned(number, zone, position.Value, diameter, top, tip, leastLength, remark);
    }
}
