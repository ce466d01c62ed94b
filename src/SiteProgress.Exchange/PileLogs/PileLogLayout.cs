using SiteProgress.Core.Logs;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.PileLogs;

/// <summary>Columns of a file of log samples. Which of the tip and sand columns is there says what the gauge measures.</summary>
internal sealed class PileLogLayout : TableLayout
{
    /// <param name="axes">Names of the axes of the site grid.</param>
    public PileLogLayout(GridAxes axes)
        : base("log samples", axes)
    {
        DayBeside("Day");
        At = Time("Time", required: true, "Date and time", "Date time", "Datetime", "Timestamp", "Sample time");
        Record = Text("Record", required: false, "Record Id");
        PileNumber = Text("Pile No", required: false, "Pile Number", "Pile Nr", "Pile Id", "Pile");
        Barge = Text("Barge", required: false, "Vessel");
        Casing = Text("Casing", required: false, "Casing No");
        TipLevel = Number("Casing tip level", Quantity.Level, "Casing tip");
        TipDepth = Number("Casing tip below water", Quantity.Level, "Casing depth below water");
        SandHeight = Number("Sand above tip", Quantity.Level, "Sand height above tip");
        SandFromTop = Number("Sand below casing top", Quantity.Level, "Sand from casing top");
        SandLevel = Number("Sand level", Quantity.Level);
        Others =
        [
            (LogChannel.AirPressure, Number("Air pressure", Quantity.Pressure)),
            (LogChannel.HammerLoad, Number("Hammer load", Quantity.HammerLoad)),
            (LogChannel.InclinationX, Number("Inclination X", Quantity.Lean)),
            (LogChannel.InclinationY, Number("Inclination Y", Quantity.Lean)),
            (LogChannel.Charge, Number("Charge", Quantity.Volume)),
            (LogChannel.Valve, Number("Valve open", Quantity.OpenOrClosed, "Valve")),
            (LogChannel.WaterLevel, Number("Water level", Quantity.Level)),
        ];
    }

    public Column At { get; }

    public Column Record { get; }

    public Column PileNumber { get; }

    public Column Barge { get; }

    public Column Casing { get; }

    public Column TipLevel { get; }

    public Column TipDepth { get; }

    public Column SandHeight { get; }

    public Column SandFromTop { get; }

    public Column SandLevel { get; }

    public IReadOnlyList<(LogChannel Channel, Column Column)> Others { get; }
}
