using SiteProgress.Core.Piles;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.GroundInvestigations;

/// <summary>Columns of standard penetration tests: headings of AGS4 (groups ISPT and LOCA) and usual titles of tables.</summary>
internal sealed class PenetrationTestLayout : TableLayout
{
    /// <param name="axes">Names of the axes of the site grid.</param>
    public PenetrationTestLayout(GridAxes axes)
        : base("standard penetration tests", axes)
    {
        Location = Text("Borehole", required: true, "LOCA_ID", "Location Id", "Location", "Hole", "Hole Id", "Borehole No", "BH");
        TopDepth = Number("Test depth", Quantity.DepthBelowGround, "ISPT_TOP", "SPT depth", "Depth of test");
        Blows = Text("N value", required: false, "ISPT_NVAL", "SPT N", "SPT N value", "N");
        Seating = Text("Seating blows", required: false, "ISPT_SEAT");
        Main = Text("Main blows", required: false, "ISPT_MAIN");
        Penetration = Text("Penetration mm", required: false, "ISPT_NPEN");
        EnergyRatio = Number("Energy ratio", Quantity.Percent, "ISPT_ERAT");
        Type = Text("Test type", required: false, "ISPT_TYPE");
        Reported = Text("Reported result", required: false, "ISPT_REP");
        GroundLevel = Level("Ground level", ["LOCA_GL"], []);
        Place = Position("", required: false, Frame.SiteGrid, Frame.ProjectedCrs);
        // AGS4 keeps the last day of work with the borehole.
        TestedOn = Text("Tested on", required: false, "LOCA_ENDD", "Date of test", "Test date");
        Remark = Text("Remark", required: false, [.. PileNames.Remarks, "ISPT_REM"]);
    }

    public Column Location { get; }

    public Column TopDepth { get; }

    public Column Blows { get; }

    public Column Seating { get; }

    public Column Main { get; }

    public Column Penetration { get; }

    public Column EnergyRatio { get; }

    public Column Type { get; }

    public Column Reported { get; }

    public Column GroundLevel { get; }

    public PositionColumns Place { get; }

    public Column TestedOn { get; }

    public Column Remark { get; }
}
