using SiteProgress.DemoGenerator.Records;
using SiteProgress.DemoGenerator.Site;

namespace SiteProgress.DemoGenerator.Ground;

/// <summary>One sounding: where on the site grid, and the level of the seabed as surveyed, metres.</summary>
public sealed record Sounding(PlanePoint At, double Level);

/// <summary>
/// The seabed before the work and near its end. What a pile pushes up is a share of its sand, and lies about it as a bell of
/// six metres; the true volume of each zone is kept beside.
/// </summary>
public sealed class SeabedSurvey
{
    public const double Noise = 0.06;
    public const double BellMetres = 6;
    private const double Raster = 3;
    private const double FarMetres = 24;

    public static readonly DateOnly BeforeDay = new(2026, 2, 24), AfterDay = new(2026, 5, 23);

    /// <summary>Volume that comes up for each cubic metre of sand in the piles, by zone.</summary>
    public static readonly IReadOnlyDictionary<string, double> UpheavalOf = new Dictionary<string, double> { ["A"] = 0.52, ["B"] = 0.46, ["C"] = 0.43 };

    private SeabedSurvey(IReadOnlyList<Sounding> before, IReadOnlyList<Sounding> after, IReadOnlyDictionary<string, double> sandOf)
        => (Before, After, SandOf) = (before, after, sandOf);

    public IReadOnlyList<Sounding> Before { get; }

    public IReadOnlyList<Sounding> After { get; }

    /// <summary>True sand in the piles built before the later survey, by zone, m3.</summary>
    public IReadOnlyDictionary<string, double> SandOf { get; }

    public static SeabedSurvey Make(int seed, IReadOnlyList<Installation> installations)
    {
        (PlanePoint At, double Up)[] piles = [.. installations
            .Where(each => each is { Planned: not null, ReachedTop: true } && each.WorkingDay <= AfterDay)
            .Select(each => (each.Truth.End, UpheavalOf[each.Zone.Code] * each.Truth.Sand * SandSourceDesign.FactorOf(each.Zone.SandSource)))];
        ILookup<(int, int), (PlanePoint At, double Up)> byPlace = piles.ToLookup(pile => Cell(pile.At));
        List<Sounding> before = [], after = [];
        ChanceSource ofBefore = ChanceSource.For(seed, "seabed-before"), ofAfter = ChanceSource.For(seed, "seabed-after");
        for (double y = 1984; y <= 2080; y += Raster)
        {
            for (double x = 984; x <= 1512; x += Raster)
            {
                PlanePoint at = new(x + ofBefore.Between(-0.4, 0.4), y + ofBefore.Between(-0.4, 0.4));
                before.Add(new Sounding(at, Natural(at) + ofBefore.Normal(0, Noise)));
                at = new(x + ofAfter.Between(-0.4, 0.4), y + ofAfter.Between(-0.4, 0.4));
                after.Add(new Sounding(at, Natural(at) + Up(at, byPlace) + ofAfter.Normal(0, Noise)));
            }
        }

        return new SeabedSurvey(before, after, ZoneDesign.All.ToDictionary(zone => zone.Code, zone => installations
            .Where(each => each is { Planned: not null, ReachedTop: true } && each.WorkingDay <= AfterDay && each.Zone == zone)
            .Sum(each => each.Truth.Sand * SandSourceDesign.FactorOf(zone.SandSource))));
    }

    /// <summary>The seabed nobody has touched.</summary>
    public static double Natural(PlanePoint at)
        => (at.First < 1155 ? -12.1 : at.First < 1341 ? -12.6 : -13.2) + (0.22 * Math.Sin(at.First / 41)) + (0.15 * Math.Cos(at.Second / 23));

    private static (int, int) Cell(PlanePoint at) => ((int)Math.Floor(at.First / FarMetres), (int)Math.Floor(at.Second / FarMetres));

    private static double Up(PlanePoint at, ILookup<(int, int), (PlanePoint At, double Up)> piles)
    {
        var (column, row) = Cell(at);
        double sum = 0;
        for (var across = -1; across <= 1; across++)
        {
            for (var along = -1; along <= 1; along++)
            {
                foreach (var (pile, up) in piles[(column + along, row + across)])
                {
                    double x = pile.First - at.First, y = pile.Second - at.Second;
                    sum += up / (2 * Math.PI * BellMetres * BellMetres) * Math.Exp(-((x * x) + (y * y)) / (2 * BellMetres * BellMetres));
                }
            }
        }

        return sum;
    }
}
