using SiteProgress.Core.Piles;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.PileSchedules;

/// <summary>Columns of a pile schedule.</summary>
internal sealed class PlannedPileLayout : TableLayout
{
    /// <param name="axes">Names of the axes of the site grid.</param>
    public PlannedPileLayout(GridAxes axes)
        : base("planned piles", axes)
    {
        PileNumber = Text("Pile No", required: true, "Pile Number", "Pile Nr", "Pile Id", "Pile");
        Zone = Text("Zone", required: true, "Zone Code", "Area");
        DesignPosition = Position("", required: true, Frame.SiteGrid, Frame.ProjectedCrs, Frame.Geographic);
        Diameter = Number("Diameter", Quantity.Diameter, "Design diameter");
        TopLevel = Number("Top level", Quantity.Level, "Design top level", "Level top");
        TipLevel = Number("Tip level", Quantity.Level, "Design tip level", "Level tip");
        LeastLength = Number("Min length", Quantity.Length, "Least length", "Minimum length");
        Remark = Text("Remark", required: false, "Remarks", "Comment", "Note");
    }

    public Column PileNumber { get; }

    public Column Zone { get; }

    public PositionColumns DesignPosition { get; }

    public Column Diameter { get; }

    public Column TopLevel { get; }

    public Column TipLevel { get; }

    public Column LeastLength { get; }

    public Column Remark { get; }
}
