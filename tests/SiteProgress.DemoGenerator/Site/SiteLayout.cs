using System.Globalization;

namespace SiteProgress.DemoGenerator.Site;

/// <summary>One planned pile: number, zone, place in the pattern and design position on the site grid (millimetres, as drawn).</summary>
public sealed record PlannedPile(string Number, ZoneDesign Zone, int Row, int Column, PlanePoint Position);

/// <summary>Where the piles stand: three zones side by side along the breakwater, numbered row by row from the south-west corner.</summary>
public sealed class SiteLayout
{
    private readonly Dictionary<(string Zone, int Row, int Column), PlannedPile> _byPlace = [];
    private readonly Dictionary<string, PlannedPile> _byNumber = [];

    public SiteLayout()
    {
        foreach (var zone in ZoneDesign.All)
        {
            var running = 0;
            for (var row = 0; row < RowsOf(zone.Code); row++)
                for (var column = 0; column < ColumnsOf(zone.Code, row); column++)
                    Add(zone, row, column, ++running);
        }
    }

    public IReadOnlyCollection<PlannedPile> Piles => _byNumber.Values;

    public PlannedPile? At(string zone, int row, int column) => _byPlace.GetValueOrDefault((zone, row, column));

    public PlannedPile ByNumber(string number) => _byNumber[number];

    public static int RowsOf(string zone) => zone == "B" ? 24 : 30;

    /// <summary>The roundhead (zone C) tapers: three piles fewer in every further five rows.</summary>
    public static int ColumnsOf(string zone, int row) => zone switch { "A" => 72, "B" => 84, _ => 69 - (3 * (row / 5)) };

    /// <summary>First pile of the zone, site grid, metres.</summary>
    public static PlanePoint CornerOf(string zone) => zone switch
    {
        "A" => new PlanePoint(1000.0, 2000.0),
        "B" => new PlanePoint(1160.0, 2000.0),
        _ => new PlanePoint(1346.0, 2003.0),
    };

    /// <summary>Outline about half a spacing outside the outer piles, closed by repeating the first corner.</summary>
    public static IReadOnlyList<PlanePoint> OutlineOf(ZoneDesign zone)
    {
        var corner = CornerOf(zone.Code);
        var margin = zone.Spacing / 2;
        var left = corner.First - margin;
        var bottom = corner.Second - (zone.RowPitch / 2);
        var rows = RowsOf(zone.Code);
        var stagger = zone.Pattern == "triangular" ? zone.Spacing / 2 : 0;
        var points = new List<PlanePoint> { new(left, bottom) };
        for (var row = 0; row < rows; row++)
        {
            var right = corner.First + stagger + ((ColumnsOf(zone.Code, row) - 1) * zone.Spacing) + margin;
            if (row == 0 || ColumnsOf(zone.Code, row) != ColumnsOf(zone.Code, row - 1))
            {
                if (row > 0) points.Add(new PlanePoint(points[^1].First, bottom + (row * zone.RowPitch)));
                points.Add(new PlanePoint(right, bottom + (row * zone.RowPitch)));
            }
        }

        points.Add(new PlanePoint(points[^1].First, bottom + (rows * zone.RowPitch)));
        points.Add(new PlanePoint(left, bottom + (rows * zone.RowPitch)));
        points.Add(points[0]);
        return points;
    }

    private void Add(ZoneDesign zone, int row, int column, int running)
    {
        var corner = CornerOf(zone.Code);
        var stagger = zone.Pattern == "triangular" && row % 2 == 1 ? zone.Spacing / 2 : 0;
        var position = new PlanePoint(
            Math.Round(corner.First + stagger + (column * zone.Spacing), 3),
            Math.Round(corner.Second + (row * zone.RowPitch), 3));
        var number = zone.Code + "-" + running.ToString("0000", CultureInfo.InvariantCulture);
        var pile = new PlannedPile(number, zone, row, column, position);
        _byPlace.Add((zone.Code, row, column), pile);
        _byNumber.Add(number, pile);
    }
}
