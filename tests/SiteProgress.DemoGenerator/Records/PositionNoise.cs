using SiteProgress.DemoGenerator.Site;

namespace SiteProgress.DemoGenerator.Records;

/// <summary>
/// Where casings truly went and what was recorded of it. A set-up's casings share the barge's error and its error of heading;
/// each casing adds a little of its own. All standard deviations are metres per axis unless said otherwise.
/// </summary>
public sealed class PositionNoise(int seed)
{
    public const double Shared = 0.039;
    public const double Own = 0.024;
    public const double HeadingDegrees = 0.20;
    public const double Drift = 0.012;
    public const double Satellite = 0.010;
    public const double SatelliteFloat = 0.11;

    /// <summary>Share of set-ups made in a swell or a current, and how much wider their shared error is.</summary>
    public const double RoughShare = 0.03;

    public const double RoughFactor = 2.2;

    /// <summary>Curlew's common offset: recorded minus true, metres in the ship's frame; the barge steers by what it records.</summary>
    public static readonly PlanePoint CurlewOffset = new(-0.15, 0.10);

    private readonly ChanceSource _chance = ChanceSource.For(seed, "positions");

    public void Apply(IReadOnlyList<Installation> installations)
    {
        foreach (var setUp in installations.GroupBy(each => each.SetUpName).OrderBy(group => group.Key, StringComparer.Ordinal))
            ApplyTo([.. setUp.OrderBy(each => each.Casing)]);
    }

    private void ApplyTo(Installation[] casings)
    {
        var width = Shared * (_chance.Chance(RoughShare) ? RoughFactor : 1);
        var shared = Axis(width);
        var heading = _chance.Normal(0, HeadingDegrees);
        var satellite = Axis(Satellite);
        var isFloat = _chance.Chance(0.012);
        foreach (var casing in casings)
        {
            var barge = casing.Barge;
            // The barge steers its centre casing; a turn about it moves the outer casings fore and aft.
            var turn = PlanePoint.FromShip(0, barge.StarboardOf(casing.Casing), casing.HeadingOnSite + heading)
                - PlanePoint.FromShip(0, barge.StarboardOf(casing.Casing), casing.HeadingOnSite);
            var aimed = Target(casing) + shared + turn + Axis(Own);
            var drift = Axis(Drift);
            casing.RecordedHeadingOnSite = (casing.HeadingOnSite + heading + 360) % 360;
            Record(casing, aimed, drift, satellite, isFloat);
        }
    }

    private void Record(Installation casing, PlanePoint aimed, PlanePoint drift, PlanePoint satellite, bool isFloat)
    {
        var offset = casing.Barge.Name == "Curlew"
            ? PlanePoint.FromShip(CurlewOffset.First, CurlewOffset.Second, casing.RecordedHeadingOnSite)
            : new PlanePoint(0, 0);
        casing.Truth.TouchDown = casing.Barge.Steers == "recorded" ? aimed - offset : aimed;
        casing.Truth.End = casing.Truth.TouchDown + drift;
        var fix = isFloat ? satellite + Axis(SatelliteFloat) : satellite;
        casing.RecordedTouchDown = casing.Truth.TouchDown + offset + fix;
        casing.RecordedEnd = casing.Truth.End + offset + fix;
        casing.Fix = isFloat ? "RTK float" : "RTK fixed";
        casing.Uncertainty = isFloat ? Math.Round(_chance.Between(0.22, 0.45), 2) : Math.Round(_chance.Between(0.03, 0.05), 2);
    }

    private static PlanePoint Target(Installation casing)
    {
        if (casing.Planned is not { } pile) return TrialPlace(casing);
        return casing.Outcome == "offset by instruction" ? pile.Position + PlanePoint.FromShip(0.55, 0.20, casing.HeadingOnSite) : pile.Position;
    }

    /// <summary>Trial piles stand 9 m outside the zone's first row.</summary>
    private static PlanePoint TrialPlace(Installation casing) =>
        SiteLayout.CornerOf(casing.Zone.Code) + new PlanePoint(20 + casing.Barge.StarboardOf(casing.Casing), -9);

    private PlanePoint Axis(double deviation) => new(_chance.Normal(0, deviation), _chance.Normal(0, deviation));
}
