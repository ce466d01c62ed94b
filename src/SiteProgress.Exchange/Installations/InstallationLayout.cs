using SiteProgress.Core.Piles;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.Installations;

/// <summary>Columns of a file of as-built installations.</summary>
internal sealed class InstallationLayout : TableLayout
{
    /// <param name="axes">Names of the axes of the site grid.</param>
    public InstallationLayout(GridAxes axes)
        : base("installations", axes)
    {
        Record = Text("Record", required: false, "Record Id", "Record No");
        PileNumber = Text("Pile No", required: true, "Pile Number", "Pile Nr", "Pile Id", "Pile");
        Barge = Text("Barge", required: true, "Vessel");
        Casing = Text("Casing", required: false, "Casing No");
        SetUp = Text("Set-up", required: false, "Set-up No");
        Start = Time("Start", required: false, "Start time", "Start penetration");
        EndOfPenetration = Time("End penetration", required: false, "End of penetration");
        End = Time("End", required: false, "End time");
        TouchDown = Position("touch-down", required: false, Frame.SiteGrid, Frame.ProjectedCrs, Frame.Geographic);
        AtEnd = Position("end", required: false, Frame.SiteGrid, Frame.ProjectedCrs, Frame.Geographic);
        HeadingGrid = Number("Heading grid", Quantity.Heading);
        HeadingSite = Number("Heading site", Quantity.Heading);
        HeadingTrue = Number("Heading true", Quantity.Heading);
        Heading = Number("Heading", Quantity.Heading);
        TopLevel = Number("Top level", Quantity.Level, "Level top");
        TipLevel = Number("Tip level", Quantity.Level, "Level tip");
        Sand = Number("Sand in casing", Quantity.Volume);
        Inclination = Number("Inclination", Quantity.Inclination);
        StopRate = Number("Penetration rate at stop", Quantity.Rate, "Stop rate");
        Fix = Text("Fix", required: false, "Fix type");
        Uncertainty = Number("Uncertainty", Quantity.Uncertainty, "Position uncertainty");
        Outcome = Text("Outcome", required: true);
        Remark = Text("Remark", required: false, "Remarks", "Comment", "Note");
    }

    public Column Record { get; }

    public Column PileNumber { get; }

    public Column Barge { get; }

    public Column Casing { get; }

    public Column SetUp { get; }

    public Column Start { get; }

    public Column EndOfPenetration { get; }

    public Column End { get; }

    public PositionColumns TouchDown { get; }

    public PositionColumns AtEnd { get; }

    public Column HeadingGrid { get; }

    public Column HeadingSite { get; }

    public Column HeadingTrue { get; }

    public Column Heading { get; }

    public Column TopLevel { get; }

    public Column TipLevel { get; }

    public Column Sand { get; }

    public Column Inclination { get; }

    public Column StopRate { get; }

    public Column Fix { get; }

    public Column Uncertainty { get; }

    public Column Outcome { get; }

    public Column Remark { get; }
}
