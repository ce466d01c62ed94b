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
        Barge = Text("Barge", required: true, "Barge name", "Vessel", "Vessel name", "Rig", "Rig No", "Rig name", "Pontoon", "Unit", "Plant", "Ship", "Ship name");
        Casing = Text("Casing", required: false, "Casing No", "Casing Nr", "Casing number", "Pipe", "Pipe No", "Tube", "Tube No", "Leg", "Leg No", "Leader", "Leader No", "Mast", "Mast No");
        SetUp = Text("Set-up", required: false, "Set-up No", "Set-up Nr", "Barge position", "Barge set-up");
        DayBeside("Day", "Work date", "Date of work", "Date of installation", "Installation date", "Start date", "Date start", "Date installed");
        Start = Time("Start", required: false, StartTitles);
        EndOfPenetration = Time("End penetration", required: false, "End of penetration", "Penetration end", "Tip reached", "Toe reached", "Time at tip", "Time at toe", "End driving", "End of driving");
        End = Time("End", required: false, EndTitles);
        TouchDown = Position("touch-down", required: false, Frame.SiteGrid, Frame.ProjectedCrs, Frame.Geographic);
        AtEnd = Position("end", required: false, alsoBare: true, Frame.SiteGrid, Frame.ProjectedCrs, Frame.Geographic);
        HeadingGrid = Number("Heading grid", Quantity.Heading, "Grid heading");
        HeadingSite = Number("Heading site", Quantity.Heading, "Site heading");
        HeadingTrue = Number("Heading true", Quantity.Heading, "True heading");
        Heading = Number("Heading", Quantity.Heading, "Barge heading", "Hdg", "Vessel heading");
        TopLevel = Level("Top level", PileNames.TopLevels, PileNames.TopDepths);
        TipLevel = Level("Tip level", PileNames.TipLevels, PileNames.TipDepths);
        InDoubt(TopLevel, "is taken as the level of the top, counted up from the datum; where it is a depth, say so.", PileNames.BareTops);
        InDoubt(TipLevel, "is taken as the level of the tip, counted up from the datum; where it is a depth, say so.", PileNames.BareTips);
        Sand = Number("Sand in casing", Quantity.Volume, "Sand volume in casing", "Sand in casing volume", "Loose sand", "Loose sand volume", "Sand loose volume");
        // Sand alone may be delivered, in the casing or in the pile; only a person can say.
        InDoubt(
            Sand, "is taken as loose sand in the casing; where it is sand delivered or sand in the pile, say that it is not used.",
            "Sand", "Sand volume", "Sand vol", "Volume of sand", "Sand used", "Sand quantity", "Sand qty", "Volume", "Vol", "Sand consumption");
        Inclination = Number("Inclination", Quantity.Inclination, "Tilt", "Casing inclination", "Verticality", "Incl");
        StopRate = Number("Penetration rate at stop", Quantity.Rate, "Stop rate", "Rate at stop", "Final penetration rate");
        Fix = Text("Fix", required: false, "Fix type", "Fix quality", "GNSS fix", "GPS fix", "RTK status");
        Uncertainty = Number("Uncertainty", Quantity.Uncertainty, "Position uncertainty");
        Outcome = Text("Outcome", required: true, "Status", "Result", "Pile status", "State", "Completion");
        Remark = Text("Remark", required: false, PileNames.Remarks);
        string[] water = ["below water", "below water level", "below WL", "bwl", "below water surface", "under water", "from water", "from water level"];
        string[] deck = ["below deck", "below deck level", "below barge deck", "from deck", "under deck"];
        TipBelowWater = RareNumber("Tip depth below water", Quantity.Depth, PileNames.TipsBelow(water));
        TopBelowWater = RareNumber("Top depth below water", Quantity.Depth, PileNames.TopsBelow(water));
        TipBelowDeck = RareNumber("Tip depth below deck", Quantity.Depth, PileNames.TipsBelow(deck));
        TopBelowDeck = RareNumber("Top depth below deck", Quantity.Depth, PileNames.TopsBelow(deck));
        TipBelowAntenna = RareNumber("Length antenna to tip", Quantity.Depth, PileNames.TipsBelow("below antenna", "from antenna"));
        TopBelowAntenna = RareNumber("Length antenna to top", Quantity.Depth, PileNames.TopsBelow("below antenna", "from antenna"));
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
        Gga = RareText("GGA", "GGA sentence", "NMEA GGA", "GGA end");
        Hdt = RareText("HDT", "HDT sentence", "NMEA HDT");
    }

    private static string[] StartTitles =>
    [
        "Start time", "Time start", "Time of start", "Start date time", "Start datetime", "Date time start", "Start date and time", "Start penetration", "Start of penetration",
        "Penetration start", "Start driving", "Start of driving", "Driving start", "Begin", "Begin time", "Began", "Commenced", "Started", "Time in", "Touch-down time",
    ];

    private static string[] EndTitles =>
    [
        "End time", "Time end", "Time of end", "End date time", "End datetime", "Date time end", "End date and time", "Finish", "Finish time", "Time finish", "Time of finish",
        "Finished", "Stop", "Stop time", "Time stop", "Completed", "End withdrawal", "End of withdrawal", "Withdrawal end", "Time out", "Pulled out",
    ];

    protected override IReadOnlyList<string> FillWords => ["asbuilt", "actual", "act", "achieved", "final", "installed", "built"];

    public override Column? Below(Column level, string surface) => (level == TipLevel, surface) switch
    {
        (true, "water") => TipBelowWater,
        (false, "water") => TopBelowWater,
        (true, "deck") => TipBelowDeck,
        (false, "deck") => TopBelowDeck,
        (true, "antenna") => TipBelowAntenna,
        (false, "antenna") => TopBelowAntenna,
        _ => null,
    };

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

    /// <summary>The receiver's own sentence at the end of penetration.</summary>
    public Column Gga { get; }

    /// <summary>The compass's own sentence.</summary>
    public Column Hdt { get; }

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
