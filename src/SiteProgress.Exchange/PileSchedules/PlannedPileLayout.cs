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
        PileNumber = NameOf("Pile No", required: true, PileNames.Usual, PileNames.Loose);
        Zone = Text("Zone", required: true, "Zone Code", "Zone No", "Area", "Block", "Section");
        DesignPosition = Position("", required: true, Frame.SiteGrid, Frame.ProjectedCrs, Frame.Geographic);
        Diameter = Number("Diameter", Quantity.Diameter, "Design diameter", "Pile diameter", "Dia", "Diam");
        TopLevel = Level("Top level", [.. PileNames.TopLevels, "Design top level"], PileNames.TopDepths);
        TipLevel = Level("Tip level", [.. PileNames.TipLevels, "Design tip level", "Design toe level"], PileNames.TipDepths);
        LeastLength = Number("Min length", Quantity.Length, "Least length", "Minimum length");
        Remark = Text("Remark", required: false, PileNames.Remarks);
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
