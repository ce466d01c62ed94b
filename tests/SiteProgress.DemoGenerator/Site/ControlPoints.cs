namespace SiteProgress.DemoGenerator.Site;

/// <summary>A mark known in both frames: as drawn on the site grid, as observed in EPSG:25832. Metres.</summary>
public sealed record ControlPoint(string Name, PlanePoint OnSite, PlanePoint Observed, double StandardDeviation);

/// <summary>Six marks around the site; the fifth was observed in poor conditions and fits about 25 mm less well.</summary>
public static class ControlPoints
{
    public static IReadOnlyList<ControlPoint> Make(int seed)
    {
        var chance = ChanceSource.For(seed, "control points");
        (string Name, double X, double Y, double Deviation)[] marks =
        [
            ("CP-1", 940.000, 1958.400, 0.004), ("CP-2", 1255.250, 1941.000, 0.004), ("CP-3", 1532.600, 1966.750, 0.004),
            ("CP-4", 1528.900, 2104.300, 0.004), ("CP-5", 1249.700, 2121.850, 0.012), ("CP-6", 947.150, 2108.050, 0.004),
        ];
        return [.. marks.Select(mark =>
        {
            var onSite = new PlanePoint(mark.X, mark.Y);
            var noise = new PlanePoint(chance.Normal(0, 0.003), chance.Normal(0, 0.003));
            var poor = mark.Name == "CP-5" ? new PlanePoint(0.021, -0.014) : new PlanePoint(0, 0);
            return new ControlPoint(mark.Name, onSite, SiteGrid.ToProjected(onSite) + noise + poor, mark.Deviation);
        })];
    }
}
