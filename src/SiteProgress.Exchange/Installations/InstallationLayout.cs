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
        Record = Text("Record", required: false, "Record Id", "Record No", "Record Nr", "Rec No");
        PileNumber = NameOf("Pile No", required: true, PileNames.Usual, PileNames.Loose);
        Barge = Text("Barge", required: true, "Vessel", "Rig", "Pontoon", "Unit", "Plant");
        Casing = Text("Casing", required: false, "Casing No", "Casing Nr", "Pipe", "Pipe No", "Tube", "Tube No");
        SetUp = Text("Set-up", required: false, "Set-up No", "Set-up Nr", "Barge position");
        Start = Time("Start", required: false, "Start time", "Start penetration", "Start of penetration", "Time start", "Begin", "Commenced", "Touch-down time");
        EndOfPenetration = Time("End penetration", required: false, "End of penetration", "Penetration end", "Tip reached", "Time at tip");
        End = Time("End", required: false, "End time", "Time end", "Finish", "Finish time", "Finished", "Completed", "End withdrawal", "End of withdrawal");
        TouchDown = Position("touch-down", required: false, Frame.SiteGrid, Frame.ProjectedCrs, Frame.Geographic);
        AtEnd = Position("end", required: false, alsoBare: true, Frame.SiteGrid, Frame.ProjectedCrs, Frame.Geographic);
        HeadingGrid = Number("Heading grid", Quantity.Heading, "Grid heading");
        HeadingSite = Number("Heading site", Quantity.Heading, "Site heading");
        HeadingTrue = Number("Heading true", Quantity.Heading, "True heading");
        Heading = Number("Heading", Quantity.Heading, "Barge heading", "Hdg");
        TopLevel = Level("Top level", PileNames.TopLevels, PileNames.TopDepths);
        TipLevel = Level("Tip level", PileNames.TipLevels, PileNames.TipDepths);
        // "Sand volume" alone may be delivered, in the casing or in the pile; only a person can say.
        Sand = Number("Sand in casing", Quantity.Volume, "Sand volume in casing", "Sand in casing volume");
        Inclination = Number("Inclination", Quantity.Inclination, "Tilt", "Casing inclination");
        StopRate = Number("Penetration rate at stop", Quantity.Rate, "Stop rate", "Rate at stop");
        Fix = Text("Fix", required: false, "Fix type", "Fix quality", "GNSS fix");
        Uncertainty = Number("Uncertainty", Quantity.Uncertainty, "Position uncertainty");
        Outcome = Text("Outcome", required: true, "Status", "Result");
        Remark = Text("Remark", required: false, PileNames.Remarks);
        TipBelowWater = RareNumber("Tip depth below water", Quantity.Depth, "Depth of tip below water");
        TopBelowWater = RareNumber("Top depth below water", Quantity.Depth, "Depth of top below water");
        TipBelowDeck = RareNumber("Tip depth below deck", Quantity.Depth, "Depth of tip below deck");
        TopBelowDeck = RareNumber("Top depth below deck", Quantity.Depth, "Depth of top below deck");
        TipBelowAntenna = RareNumber("Length antenna to tip", Quantity.Depth, "Tip depth below antenna");
        TopBelowAntenna = RareNumber("Length antenna to top", Quantity.Depth, "Top depth below antenna");
        Freeboard = RareNumber("Freeboard", Quantity.Offset, "Freeboard at casing");
        Draught = RareNumber("Draught", Quantity.Offset, "Draft");
        ForeDraught = RareNumber("Draught fore", Quantity.Offset, "Fore draught", "Draft fore");
        AftDraught = RareNumber("Draught aft", Quantity.Offset, "Aft draught", "Draft aft");
        List = RareNumber("List", Quantity.Heel, "List starboard down");
        Trim = RareNumber("Trim", Quantity.Heel, "Trim bow down");
        AntennaAtTip = RareNumber("Antenna height at tip", Quantity.EllipsoidHeight);
        AntennaAtTop = RareNumber("Antenna height at top", Quantity.EllipsoidHeight);
        CorrectionAge = RareNumber("Correction age", Quantity.Age, "Age of correction");
        Epoch = RareNumber("Epoch", Quantity.Epoch, "Coordinate epoch");
    }

    public Column TipBelowWater { get; }

    public Column TopBelowWater { get; }

    public Column TipBelowDeck { get; }

    public Column TopBelowDeck { get; }

    public Column TipBelowAntenna { get; }

    public Column TopBelowAntenna { get; }

    public Column Freeboard { get; }

    public Column Draught { get; }

    public Column ForeDraught { get; }

    public Column AftDraught { get; }

    public Column List { get; }

    public Column Trim { get; }

    public Column AntennaAtTip { get; }

    public Column AntennaAtTop { get; }

    public Column CorrectionAge { get; }

    public Column Epoch { get; }

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

    public override Column? HeadingWithoutNorth => Heading;

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
