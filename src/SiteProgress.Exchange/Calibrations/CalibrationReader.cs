using System.Globalization;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.Calibrations;

/// <summary>Columns of a file of calibrations.</summary>
internal sealed class CalibrationLayout : TableLayout
{
    /// <param name="axes">Names of the axes of the site grid.</param>
    public CalibrationLayout(GridAxes axes)
        : base("calibrations", axes)
    {
        Barge = Text("Barge", required: true, "Vessel");
        Casing = Text("Casing", required: false, "Casing No");
        ValidFrom = Time("Valid from", required: true, "Valid since");
        Evidence = Text("Evidence", required: true, "Report");
        Forward = Number("Forward", Quantity.Offset, "Casing forward");
        Starboard = Number("Starboard", Quantity.Offset, "Casing starboard");
        InnerArea = Number("Inner area", Quantity.Area, "Casing inner area");
        EncoderZero = Number("Encoder zero", Quantity.Offset);
        GaugeZero = Number("Gauge zero", Quantity.Offset, "Sand gauge zero");
        AntennaForward = Number("Antenna forward", Quantity.Offset);
        AntennaStarboard = Number("Antenna starboard", Quantity.Offset);
        AntennaAboveDeck = Number("Antenna above deck", Quantity.Offset);
        Alignment = Number("Alignment of heading", Quantity.Heel, "Heading alignment");
        DeckAboveKeel = Number("Deck above keel", Quantity.Offset);
        ForeMark = Number("Fore mark", Quantity.Offset);
        ForeMarkZero = Number("Fore mark zero", Quantity.Offset);
        AftMark = Number("Aft mark", Quantity.Offset);
        AftMarkZero = Number("Aft mark zero", Quantity.Offset);
        Remark = Text("Remark", required: false, "Remarks");
    }

    public Column Barge { get; }

    public Column Casing { get; }

    public Column ValidFrom { get; }

    public Column Evidence { get; }

    public Column Forward { get; }

    public Column Starboard { get; }

    public Column InnerArea { get; }

    public Column EncoderZero { get; }

    public Column GaugeZero { get; }

    public Column AntennaForward { get; }

    public Column AntennaStarboard { get; }

    public Column AntennaAboveDeck { get; }

    public Column Alignment { get; }

    public Column DeckAboveKeel { get; }

    public Column ForeMark { get; }

    public Column ForeMarkZero { get; }

    public Column AftMark { get; }

    public Column AftMarkZero { get; }

    public Column Remark { get; }
}

/// <summary>Reads calibrations of barges and casings from a table.</summary>
public static class CalibrationReader
{
    /// <summary>Reads calibrations. Each row says from when it holds and where it comes from, and measures something.</summary>
    /// <param name="stream">The file.</param>
    /// <param name="choices">What to read with.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>Calibrations in metres, square metres and degrees, and every problem by line.</returns>
    /// <exception cref="OperationCanceledException">The reading was ended.</exception>
    public static TableReading<Calibration> Read(Stream stream, ReadingChoices choices, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(choices);
        var layout = new CalibrationLayout(choices.GridAxes);
        return TableWalk<Calibration>.Read(stream, choices, layout, row => ReadRow(row, layout, choices), cancellation);
    }

    private static Calibration? ReadRow(RowCells row, CalibrationLayout layout, ReadingChoices choices)
    {
        var barge = row.Known(layout.Barge, [.. choices.Barges.Select(one => one.Name)], "a barge");
        var casing = row.Whole(layout.Casing, 1, 99);
        var from = row.Time(layout.ValidFrom);
        var evidence = row.Text(layout.Evidence, 500);
        foreach (var column in new[] { layout.Barge, layout.ValidFrom, layout.Evidence })
            row.Require(column, "a value");
        JudgeCasing(row, layout, choices, barge, casing);
        var value = new Calibration(
            barge ?? "", casing, from ?? default, evidence ?? "",
            row.Number(layout.Forward), row.Number(layout.Starboard), row.Number(layout.InnerArea), row.Number(layout.EncoderZero), row.Number(layout.GaugeZero),
            row.Number(layout.AntennaForward), row.Number(layout.AntennaStarboard), row.Number(layout.AntennaAboveDeck), row.Number(layout.Alignment),
            row.Number(layout.DeckAboveKeel), row.Number(layout.ForeMark), row.Number(layout.ForeMarkZero), row.Number(layout.AftMark), row.Number(layout.AftMarkZero),
            row.Text(layout.Remark, 1_000));
        if (!row.IsBad && value == new Calibration(value.Barge, casing, value.ValidFrom, value.Evidence) with { Remark = value.Remark })
            row.Problem(layout.Forward.Title, "", "something measured: an offset, an area, a zero, an alignment or a draught mark");
        return row.IsBad ? null : value;
    }

    private static void JudgeCasing(RowCells row, CalibrationLayout layout, ReadingChoices choices, string? barge, int? casing)
    {
        if (barge is null || casing is null)
            return;
        var known = choices.Barges.First(one => one.Name == barge).Casings;
        if (known.Count > 0 && known.All(one => one.Number != casing))
            row.Problem(layout.Casing.Title, casing.Value.ToString(CultureInfo.InvariantCulture), $"a casing of {barge}: {string.Join(", ", known.Select(one => one.Number.ToString(CultureInfo.InvariantCulture)))}");
    }
}
