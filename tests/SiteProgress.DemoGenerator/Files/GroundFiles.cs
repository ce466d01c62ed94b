using System.Globalization;
using System.Text;
using System.Text.Json;
using SiteProgress.DemoGenerator.Ground;
using SiteProgress.DemoGenerator.Site;
using SiteProgress.DemoGenerator.Work;

namespace SiteProgress.DemoGenerator.Files;

/// <summary>Two seabed surveys, the ground investigation as AGS4, and what was true of the ground.</summary>
public static class GroundFiles
{
    /// <summary>The survey before the work: site grid.</summary>
    public static byte[] Before(SeabedSurvey survey) => TextFile.Bytes(
    [
        "Survey,Surveyed on,X [m],Y [m],Seabed level [m]",
        .. survey.Before.Select(sounding => string.Join(',', "Before the piles", SiteTime.Iso(SeabedSurvey.BeforeDay), F(sounding.At.First), F(sounding.At.Second), F(sounding.Level))),
    ]);

    /// <summary>The survey near the end: the other surveyor writes EPSG:25832.</summary>
    public static byte[] After(SeabedSurvey survey) => TextFile.Bytes(
    [
        "Survey;Survey date;Easting [m];Northing [m];Seabed level [m]",
        .. survey.After.Select(sounding => (sounding.Level, At: SiteGrid.ToProjected(sounding.At))).Select(sounding => string.Join(';',
            "After twelve weeks", SiteTime.Iso(SeabedSurvey.AfterDay), F(sounding.At.First), F(sounding.At.Second), F(sounding.Level))),
    ]);

    /// <summary>Boreholes with their penetration tests.</summary>
    public static byte[] Investigation(IReadOnlyList<Borehole> boreholes) => TextFile.Bytes(
    [
        .. Group("PROJ", ["PROJ_ID", "PROJ_NAME"], ["", ""], ["ID", "X"], [["SH", "Sandlark Harbour, west breakwater (invented)"]]),
        .. Group(
            "LOCA", ["LOCA_ID", "LOCA_TYPE", "LOCA_GL", "LOCA_ENDD", "LOCA_LOCX", "LOCA_LOCY"], ["", "", "m", "yyyy-mm-dd", "m", "m"], ["ID", "PA", "2DP", "DT", "2DP", "2DP"],
            boreholes.Select(hole => new[] { hole.Name, "CP", F(hole.GroundLevel), SiteTime.Iso(hole.Day), F(hole.At.First), F(hole.At.Second) })),
        .. Group(
            "ISPT", ["LOCA_ID", "ISPT_TOP", "ISPT_SEAT", "ISPT_MAIN", "ISPT_NPEN", "ISPT_NVAL", "ISPT_TYPE"], ["", "m", "", "", "mm", "", ""], ["ID", "2DP", "0DP", "0DP", "0DP", "0DP", "PA"],
            boreholes.SelectMany(hole => hole.Tests.Select(test => new[] { hole.Name, F(test.Depth), Whole(test.Seating), Whole(test.Main), "450", Whole(test.Main), "S" }))),
    ], lineEnd: "\r\n");

    public static byte[] Truth(SeabedSurvey survey) => Encoding.UTF8.GetBytes(JsonSerializer.Serialize(
        new
        {
            Note = "Truth of the demo's ground; for tests only. Sand: true, in the pile, of piles built by the later survey's day, m3. Heave by sand: volume that came up for each m3 of it; a bell of the stated standard deviation about each pile, so some of it lies outside the zone.",
            SeabedSurvey.BellMetres,
            SurveyNoiseMetres = SeabedSurvey.Noise,
            Zones = ZoneDesign.All.Select(zone => new { Zone = zone.Code, SandInPile = Math.Round(survey.SandOf[zone.Code], 1), HeaveBySand = SeabedSurvey.UpheavalOf[zone.Code] }),
            WeakTest = new { Borehole = "PB-2", LevelMetres = Borehole.WeakLevel },
        },
        SiteFiles.Json) + "\n");

    private static IEnumerable<string> Group(string name, string[] headings, string[] units, string[] types, IEnumerable<string[]> rows) =>
    [
        Line("GROUP", [name]), Line("HEADING", headings), Line("UNIT", units), Line("TYPE", types), .. rows.Select(row => Line("DATA", row)), "",
    ];

    private static string Line(string kind, string[] cells) => string.Join(',', cells.Prepend(kind).Select(cell => $"\"{cell}\""));

    private static string F(double metres) => TextFile.Number(metres, 2);

    private static string Whole(int value) => value.ToString(CultureInfo.InvariantCulture);
}
