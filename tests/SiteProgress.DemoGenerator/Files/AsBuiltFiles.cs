using System.Globalization;
using SiteProgress.DemoGenerator.Records;
using SiteProgress.DemoGenerator.Site;
using SiteProgress.DemoGenerator.Work;

namespace SiteProgress.DemoGenerator.Files;

/// <summary>As-built files as three crews write them: the same facts, three looks.</summary>
public static class AsBuiltFiles
{
    public static byte[] Write(AsBuiltFile file) => file.Barge.Name switch
    {
        "Tern" => Tern(file),
        "Plover" => Plover(file),
        _ => Curlew(file),
    };

    /// <summary>Comma, decimal point, site grid, site time without an offset.</summary>
    private static byte[] Tern(AsBuiltFile file) => TextFile.Bytes(
    [
        "Record,Pile No,Barge,Casing,Set-up,Start,End penetration,End,X touch-down [m],Y touch-down [m],X end [m],Y end [m],"
            + "Heading grid [deg],Top level [m],Tip level [m],Sand in casing [m3],Inclination [deg],"
            + "Penetration rate at stop [m/min],Fix,Uncertainty [m],Outcome,Remark",
        .. file.Rows.Select(row =>
        {
            var each = row.Installation;
            // The crew leaves a blank behind the number now and then.
            var number = each.RecordedPile + (each is { Casing: 2, SetUp: var setUp } && setUp % 13 == 7 ? " " : "");
            return string.Join(',', [
                row.Record, number, "Tern", each.Casing.ToString(CultureInfo.InvariantCulture), each.SetUpName,
                Local(each.Start, "yyyy-MM-ddTHH:mm:ss"), Local(each.EndOfPenetration, "yyyy-MM-ddTHH:mm:ss"), Local(each.End, "yyyy-MM-ddTHH:mm:ss"),
                .. Place(each, each.WrittenInWrongFrame), Heading(each.RecordedHeadingOnSite + SiteGrid.BearingOfYDegrees),
                .. Rest(each).Select(TextFile.Quoted)]);
        }),
    ]);

    /// <summary>Semicolon, decimal comma, EPSG:25832, day first, byte order mark, two title lines, another order of columns.</summary>
    private static byte[] Plover(AsBuiltFile file) => TextFile.Bytes(
    [
        "# Barge Plover - pile report until " + file.LastDay.ToString("dd.MM.yyyy", CultureInfo.InvariantCulture),
        "# Sandlark Harbour, west breakwater - times are site time",
        "Record;Barge;Set-up;Casing;Pile No;Start;End penetration;End;Easting touch-down [m];Northing touch-down [m];Easting end [m];Northing end [m];"
            + "Heading grid [deg];Top level [m];Tip level [m];Sand in casing [m3];Inclination [deg];"
            + "Penetration rate at stop [m/min];Fix;Uncertainty [m];Outcome;Remark",
        .. file.Rows.Select(row =>
        {
            var each = row.Installation;
            string[] numbers = [.. Place(each, projected: true), Heading(each.RecordedHeadingOnSite + SiteGrid.BearingOfYDegrees), .. Rest(each)];
            return string.Join(';', [
                row.Record, "Plover", each.SetUpName, each.Casing.ToString(CultureInfo.InvariantCulture), each.RecordedPile,
                Local(each.Start, "dd.MM.yyyy HH:mm"), Local(each.EndOfPenetration, "dd.MM.yyyy HH:mm"), Local(each.End, "dd.MM.yyyy HH:mm"),
                .. numbers.Select(cell => cell.Replace('.', ','))]);
        }),
    ], byteOrderMark: true, lineEnd: "\r\n");

    /// <summary>Tab, small letters with underscores, site grid, times with their offset, heading against the site grid, no inclination.</summary>
    private static byte[] Curlew(AsBuiltFile file) => TextFile.Bytes(
    [
        "record\tpile_no\tbarge\tcasing\tset-up\tstart\tend_penetration\tend\tx_touch-down [m]\ty_touch-down [m]\tx_end [m]\ty_end [m]\t"
            + "heading_site [deg]\ttop_level [m]\ttip_level [m]\tsand_in_casing [m3]\t"
            + "penetration_rate_at_stop [m/min]\tfix\tuncertainty [m]\toutcome\tremark",
        .. file.Rows.Select(row =>
        {
            var each = row.Installation;
            var rest = Rest(each).ToList();
            rest.RemoveAt(3);
            return string.Join('\t', [
                row.Record, each.RecordedPile, each.SetUp % 17 == 0 ? "CURLEW" : "Curlew", each.Casing.ToString(CultureInfo.InvariantCulture), each.SetUpName,
                Local(each.Start, "yyyy-MM-ddTHH:mmzzz"), Local(each.EndOfPenetration, "yyyy-MM-ddTHH:mmzzz"), Local(each.End, "yyyy-MM-ddTHH:mmzzz"),
                .. Place(each, projected: false), Heading(each.RecordedHeadingOnSite), .. rest]);
        }),
    ]);

    private static string[] Place(Installation each, bool projected)
    {
        PlanePoint[] points = [each.RecordedTouchDown, each.RecordedEnd];
        return [.. points.Select(point => projected ? SiteGrid.ToProjected(point) : point)
            .SelectMany(point => new[] { TextFile.Number(point.First, 3), TextFile.Number(point.Second, 3) })];
    }

    /// <summary>Top, tip, sand, inclination, rate, fix, uncertainty, outcome, remark.</summary>
    private static IEnumerable<string> Rest(Installation each) =>
    [
        TextFile.Number(each.RecordedTop, 2), TextFile.Number(each.RecordedTip, 2), TextFile.Number(each.RecordedSand, 1),
        TextFile.Number(each.Inclination, 1), TextFile.Number(each.StopRate, 2), each.Fix,
        // Left blank in some set-ups: the site's default uncertainty stands in for it.
        each.SetUp % 37 == 5 ? "" : TextFile.Number(each.Uncertainty, 2),
        each.Outcome, each.Remark,
    ];

    private static string Heading(double degrees) => TextFile.Number((Math.Round(degrees, 1) + 360) % 360, 1);

    private static string Local(DateTime utc, string format) => SiteTime.ToSite(utc).ToString(format, CultureInfo.InvariantCulture);
}
