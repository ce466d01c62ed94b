namespace SiteProgress.DemoGenerator.Site;

/// <summary>A mark observed again on a day, in EPSG:25832. Metres.</summary>
public sealed record ControlPointObservation(string Name, string Day, PlanePoint Observed, double StandardDeviation, string Method);

/// <summary>The six marks observed again three times. CP-2 stands on fill and moves to the south-east; the others stand.</summary>
public static class ControlPointObservations
{
    private static readonly (string Day, double MovedMetres, string Method)[] Campaigns =
    [
        ("2026-04-07", 0.004, "GNSS two sessions of 30 minutes"),
        ("2026-05-05", 0.015, "GNSS two sessions of 30 minutes"),
        ("2026-05-28", 0.028, "total station from CP-3 and CP-6"),
    ];

    public static IReadOnlyList<ControlPointObservation> Make(int seed)
    {
        var chance = ChanceSource.For(seed, "control point observations");
        var southEast = new PlanePoint(Math.Sqrt(0.5), -Math.Sqrt(0.5));
        return [.. Campaigns.SelectMany(campaign => ControlPoints.Make(seed).Select(mark =>
        {
            var noise = new PlanePoint(chance.Normal(0, 0.003), chance.Normal(0, 0.003));
            var moved = mark.Name == "CP-2" ? new PlanePoint(southEast.First * campaign.MovedMetres, southEast.Second * campaign.MovedMetres) : new PlanePoint(0, 0);
            return new ControlPointObservation(mark.Name, campaign.Day, SiteGrid.ToProjected(mark.OnSite) + moved + noise, 0.004, campaign.Method);
        }))];
    }
}
