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
        Zone = Text("Zone", required: true, "Zone Code", "Zone No", "Area", "Area No", "Block", "Section");
        DesignPosition = Position("", required: true, Frame.SiteGrid, Frame.ProjectedCrs, Frame.Geographic);
        Diameter = Number("Diameter", Quantity.Diameter, "Pile diameter", "Dia", "Diam", "Pile dia");
        TopLevel = Level("Top level", PileNames.TopLevels, PileNames.TopDepths);
        TipLevel = Level("Tip level", PileNames.TipLevels, PileNames.TipDepths);
        InDoubt(TopLevel, "is taken as the level of the top, counted up from the datum; where it is a depth, say so.", PileNames.BareTops);
        InDoubt(TipLevel, "is taken as the level of the tip, counted up from the datum; where it is a depth, say so.", PileNames.BareTips);
        LeastLength = Number("Min length", Quantity.Length, "Least length", "Minimum length", "Length min");
        Remark = Text("Remark", required: false, PileNames.Remarks);
    }

    protected override IReadOnlyList<string> FillWords => ["design", "planned", "theoretical", "theor", "target", "proposed"];

    public Column PileNumber { get; }

    public Column Zone { get; }

    public PositionColumns DesignPosition { get; }

    public Column Diameter { get; }

    public Column TopLevel { get; }

    public Column TipLevel { get; }

    public Column LeastLength { get; }

    public Column Remark { get; }
}
