using SiteProgress.DemoGenerator.Site;

namespace SiteProgress.DemoGenerator.Work;

/// <summary>One planned barge position: which casing builds which pile, and the heading against the site grid's Y axis, degrees.</summary>
public sealed record PlannedSetUp(IReadOnlyDictionary<int, PlannedPile> PileByCasing, double HeadingOnSite, PlanePoint CentreCasing);

/// <summary>One laying of the anchors and the set-ups reached within it, in the order of work.</summary>
public sealed record AnchorField(string Name, string Zone, IReadOnlyList<PlannedSetUp> SetUps);

/// <summary>
/// The order of work: blocks of a zone are cut into anchor fields of 18 piles by 4 rows, worked row by row; one field
/// after the other is worked on the opposite heading, and the second half of zone A along its columns.
/// </summary>
public sealed class SetUpPlan(SiteLayout layout, IReadOnlySet<string> missed)
{
    private const int FieldWidth = 18;
    private const int FieldRows = 4;

    public IEnumerable<AnchorField> For(Barge barge) => barge.Name switch
    {
        "Tern" => Strips(barge, "A", 0, 36, 0, 30, 0).Concat(AlongColumns(barge, "A", 36, 72)),
        "Plover" => Strips(barge, "B", 0, 48, 0, 24, 0).Concat(Strips(barge, "C", 0, 69, 20, 30, 180)),
        _ => Strips(barge, "C", 0, 69, 0, 12, 180).Concat(Strips(barge, "B", 48, 84, 0, 24, 0)),
    };

    private IEnumerable<AnchorField> Strips(Barge barge, string zone, int from, int to, int firstRow, int endRow, double firstHeading)
    {
        var heading = firstHeading;
        for (var column = from; column < to; column += FieldWidth)
            for (var row = firstRow; row < endRow; row += FieldRows, heading = (heading + 180) % 360)
            {
                var setUps = new List<PlannedSetUp>();
                for (var r = row; r < Math.Min(row + FieldRows, endRow); r++)
                    AddLine(setUps, barge, heading, column, Math.Min(column + FieldWidth, to), i => layout.At(zone, r, i));
                if (setUps.Count > 0) yield return new AnchorField($"{zone}{column / FieldWidth}{row / FieldRows}", zone, setUps);
            }
    }

    private IEnumerable<AnchorField> AlongColumns(Barge barge, string zone, int from, int to)
    {
        var rows = SiteLayout.RowsOf(zone);
        for (var column = from; column < to; column += FieldRows)
        {
            var heading = (column - from) / FieldRows % 2 == 0 ? 90.0 : 270.0;
            var setUps = new List<PlannedSetUp>();
            for (var c = column; c < Math.Min(column + FieldRows, to); c++)
                AddLine(setUps, barge, heading, 0, rows, i => layout.At(zone, i, c));
            yield return new AnchorField($"{zone}y{column}", zone, setUps);
        }
    }

    /// <summary>
    /// Cuts one line of piles into set-ups: casings stand <see cref="Barge.Step"/> piles apart, so a block of three times as many
    /// piles takes as many set-ups as the step; where the line ends, casings stay raised.
    /// </summary>
    private void AddLine(List<PlannedSetUp> into, Barge barge, double heading, int from, int to, Func<int, PlannedPile?> pileAt)
    {
        var step = barge.Step;
        for (var block = from; block < to; block += 3 * step)
            for (var offset = 0; offset < step; offset++)
            {
                var piles = new Dictionary<int, PlannedPile>();
                for (var place = 0; place < 3; place++)
                {
                    var index = block + offset + (place * step);
                    if (index >= to || pileAt(index) is not { } pile || missed.Contains(pile.Number)) continue;
                    piles[CasingAt(place, heading)] = pile;
                }

                if (piles.Count > 0) into.Add(new PlannedSetUp(piles, heading, CentreOf(barge, piles, heading)));
            }
    }

    /// <summary>On headings 0 and 270 the port casing is the one at the low end of the line (low X, low Y); else it is the high end.</summary>
    private static int CasingAt(int place, double heading) => heading is 0 or 270 ? place + 1 : 3 - place;

    private static PlanePoint CentreOf(Barge barge, Dictionary<int, PlannedPile> piles, double heading)
    {
        var (casing, pile) = piles.MinBy(pair => pair.Key);
        return pile.Position - PlanePoint.FromShip(0, barge.StarboardOf(casing), heading);
    }

    /// <summary>A set-up for one pile alone, with the casing that tried it before.</summary>
    public static PlannedSetUp Alone(Barge barge, PlannedPile pile, int casing, double heading)
    {
        var piles = new Dictionary<int, PlannedPile> { [casing] = pile };
        return new PlannedSetUp(piles, heading, CentreOf(barge, piles, heading));
    }
}
