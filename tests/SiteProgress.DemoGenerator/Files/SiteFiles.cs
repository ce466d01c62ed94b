using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using SiteProgress.DemoGenerator.Site;
using SiteProgress.DemoGenerator.Work;

namespace SiteProgress.DemoGenerator.Files;

/// <summary>site.json, control-points.csv and site-drawing.geojson.</summary>
public static class SiteFiles
{
    public static readonly JsonSerializerOptions Json = new()
    {
        WriteIndented = true,
        NewLine = "\n",
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        DefaultIgnoreCondition = System.Text.Json.Serialization.JsonIgnoreCondition.WhenWritingNull,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    private static readonly double[] SurveyPole = [947.15, 2108.05];

    private static readonly string[] RequiredChecks = ["position", "top", "tip", "sand"];

    public static byte[] Settings() => Encoding.UTF8.GetBytes(JsonSerializer.Serialize(
        new
        {
            Code = "sandlark",
            Name = "Sandlark Harbour, west breakwater",
            Invented = true,
            TimeZone = "Europe/Copenhagen",
            WorkingDayBegins = "06:00",
            Shifts = new[] { new { Name = "day", Begins = "06:00" }, new { Name = "night", Begins = "18:00" } },
            ProjectedCrs = SiteGrid.Epsg,
            LevelDatum = new { Name = "Sandlark Datum", Description = "Invented; zero is the mean level of the invented tide." },
            GridAxes = new { First = "X", Second = "Y" },
            PileNumberCharacters = "A-Z0-9-",
            DefaultPositionUncertaintyMetres = 0.05,
            SandSources = SandSourceDesign.All.Select(source => new { source.Name, source.VolumeChangeFactor, source.ApprovedOn, source.Evidence }),
            Zones = ZoneDesign.All.Select(Zone),
            SandAgreement = new { PileRatio = 0.06, WeekRatio = 0.04 },
            Barges = Barge.All.Select(BargeSettings),
        },
        Json) + "\n");

    public static byte[] ControlPoints(IReadOnlyList<ControlPoint> points) => TextFile.Bytes(
    [
        "Name,X [m],Y [m],Easting [m],Northing [m],Standard deviation [m]",
        .. points.Select(point => string.Join(',',
            point.Name, TextFile.Number(point.OnSite.First, 3), TextFile.Number(point.OnSite.Second, 3),
            TextFile.Number(point.Observed.First, 3), TextFile.Number(point.Observed.Second, 3), TextFile.Number(point.StandardDeviation, 3))),
    ]);

    public static byte[] Observations(IReadOnlyList<ControlPointObservation> observations) => TextFile.Bytes(
    [
        "Name,Observed on,Easting [m],Northing [m],Standard deviation [m],Method",
        .. observations.Select(one => string.Join(',',
            one.Name, one.Day, TextFile.Number(one.Observed.First, 3), TextFile.Number(one.Observed.Second, 3), TextFile.Number(one.StandardDeviation, 3), one.Method)),
    ]);

    public static byte[] Drawing()
    {
        var features = new List<object>
        {
            Feature("breakwater toe, outline", "Polygon", [Ring((976, 1984), (1486, 1984), (1502, 1992), (1512, 2030), (1502, 2068), (1486, 2076), (976, 2076), (976, 1984))]),
            Feature("breakwater crest, outline", "Polygon", [Ring((976, 2019), (1478, 2019), (1487, 2030), (1478, 2041), (976, 2041), (976, 2019))]),
            Feature("breakwater axis", "LineString", Ring((960, 2030), (1512, 2030))),
            Feature("caisson of the roundhead", "Polygon", [Ring((1520, 2095), (1536, 2095), (1536, 2111), (1520, 2111), (1520, 2095))]),
            Feature("survey pole west", "Point", SurveyPole),
        };
        features.AddRange(ZoneDesign.All.Select(zone => Feature(
            "zone " + zone.Code, "Polygon", [Ring([.. SiteLayout.OutlineOf(zone).Select(point => (Math.Round(point.First, 3), Math.Round(point.Second, 3)))])])));
        return Encoding.UTF8.GetBytes(JsonSerializer.Serialize(
            new
            {
                Type = "FeatureCollection",
                Properties = new
                {
                    Frame = "site grid",
                    Axes = "X, Y",
                    Unit = "metre",
                    Note = "Coordinates are site-grid X and Y in metres, not longitude and latitude. Invented.",
                },
                Features = features,
            },
            Json) + "\n");
    }

    private static object Zone(ZoneDesign zone) => new
    {
        zone.Code,
        zone.Name,
        zone.Pattern,
        SpacingMetres = zone.Spacing,
        SecondSpacingMetres = zone.SecondSpacing,
        DesignDiameterMetres = zone.Diameter,
        TopLevelMetres = zone.TopLevel,
        TipLevelMetres = zone.TipLevel,
        zone.TipRule,
        StopPenetrationRateMetresPerMinute = zone.StopRate,
        LeastLengthMetres = zone.LeastLength,
        ReplacementRatio = Math.Round(zone.ReplacementRatio, 4),
        SandPerMetreInPile = Math.Round(zone.Section, 4),
        zone.SandSource,
        Limits = new
        {
            RadialMetres = zone.RadialLimit,
            TopMetres = ZoneDesign.TopLimit,
            TipShortMetres = ZoneDesign.TipShortLimit,
            SandShortRatio = ZoneDesign.SandShortLimit,
            InclinationDegrees = ZoneDesign.InclinationLimit,
            Approval = "SH-OR-0" + (zone.Code[0] - 'A' + 3),
            Source = "Invented specification SH-02, clause 4." + (zone.Code[0] - 'A' + 1),
            DiameterShortRatio = ZoneDesign.DiameterShortLimit,
            GapMetres = ZoneDesign.GapLimit,
            MetreSandShortRatio = ZoneDesign.MetreSandShortLimit,
        },
        AlertRadialMetres = zone.RadialAlert,
        RequiredChecks,
        Outline = SiteLayout.OutlineOf(zone).Select(point => new[] { Math.Round(point.First, 3), Math.Round(point.Second, 3) }),
        LotRules = new
        {
            LeastShareWithinRatio = 0.95,
            AbsoluteRadialMetres = 2 * zone.RadialLimit,
            LeastMeanSandRatio = 1.0,
            LeastMeanReplacementRatio = Math.Round(zone.ReplacementRatio, 4),
            LeastSptBlows = 15,
            Source = "Invented specification SH-02, clause 8",
        },
    };

    private static object BargeSettings(Barge barge) => new
    {
        barge.Name,
        Casings = Barge.CasingNumbers.Select(casing => new
        {
            Number = casing,
            InnerDiameterMetres = barge.Inner,
            OuterDiameterMetres = barge.Outer,
            ForwardMetres = barge.Forward,
            StarboardMetres = Math.Round(barge.StarboardOf(casing), 3),
        }),
        Hull = new { LengthMetres = barge.Length, BeamMetres = barge.Beam },
    };

    private static double[][] Ring(params (double X, double Y)[] corners) => [.. corners.Select(corner => new[] { corner.X, corner.Y })];

    private static object Feature(string name, string type, double[][][] rings) => Whole(name, type, rings);

    private static object Feature(string name, string type, double[][] line) => Whole(name, type, line);

    private static object Feature(string name, string type, double[] point) => Whole(name, type, point);

    private static object Whole(string name, string type, object coordinates) => new
    {
        Type = "Feature",
        Properties = new { Name = name },
        Geometry = new { Type = type, Coordinates = coordinates },
    };
}
