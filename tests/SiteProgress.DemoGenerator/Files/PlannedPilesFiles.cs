using SiteProgress.DemoGenerator.Site;

namespace SiteProgress.DemoGenerator.Files;

/// <summary>The designer's schedules: one file a zone, each as another office would write it.</summary>
public static class PlannedPilesFiles
{
    /// <summary>Zone A: comma, decimal point, site grid.</summary>
    public static byte[] ZoneA(SiteLayout layout) => TextFile.Bytes(
    [
        "Pile No,Zone,X [m],Y [m],Diameter [m],Top level [m],Tip level [m],Min length [m],Remark",
        .. Piles(layout, "A").Select(pile => string.Join(',',
            pile.Number, "A", F(pile.Position.First), F(pile.Position.Second), TextFile.Number(pile.Zone.Diameter, 2),
            TextFile.Number(pile.Zone.TopLevel, 2), TextFile.Number(pile.Zone.TipLevel, 2), TextFile.Number(pile.Zone.LeastLength, 1),
            pile is { Row: 0, Column: 0 } ? "set out from CP-1" : "")),
    ]);

    /// <summary>Zone B: semicolon, decimal comma, EPSG:25832, title lines, no tip level since the stop criterion decides.</summary>
    public static byte[] ZoneB(SiteLayout layout) => TextFile.Bytes(
    [
        "# Sandlark Harbour, west breakwater; sand compaction piles, zone B; schedule revision 2",
        "# coordinates ETRS89 / UTM zone 32N; levels on Sandlark Datum",
        "Pile No;Zone;Easting [m];Northing [m];Diameter [m];Top level [m];Tip level [m];Min length [m];Remark",
        .. Piles(layout, "B").Select(pile =>
        {
            var projected = SiteGrid.ToProjected(pile.Position);
            return string.Join(';',
                pile.Number, "B", F(projected.First), F(projected.Second), TextFile.Number(pile.Zone.Diameter, 2),
                TextFile.Number(pile.Zone.TopLevel, 2), "", TextFile.Number(pile.Zone.LeastLength, 1), "").Replace('.', ',');
        }),
    ], byteOrderMark: true, lineEnd: "\r\n");

    /// <summary>Zone C: tab, header in small letters with underscores, site grid.</summary>
    public static byte[] ZoneC(SiteLayout layout) => TextFile.Bytes(
    [
        "pile_no\tzone\tx [m]\ty [m]\tdiameter [m]\ttop_level [m]\ttip_level [m]\tmin_length [m]",
        .. Piles(layout, "C").Select(pile => string.Join('\t',
            pile.Number, "C", F(pile.Position.First), F(pile.Position.Second), TextFile.Number(pile.Zone.Diameter, 2),
            TextFile.Number(pile.Zone.TopLevel, 2), TextFile.Number(pile.Zone.TipLevel, 2), TextFile.Number(pile.Zone.LeastLength, 1))),
    ]);

    private static IEnumerable<PlannedPile> Piles(SiteLayout layout, string zone) => layout.Piles.Where(pile => pile.Zone.Code == zone);

    private static string F(double metres) => TextFile.Number(metres, 3);
}
