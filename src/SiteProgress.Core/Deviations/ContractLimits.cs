using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Deviations;

/// <summary>The one place where the limits of a zone's contract become numbers that a pile is held against.</summary>
public static class ContractLimits
{
    /// <summary>Limit of the position of a pile.</summary>
    /// <param name="zone">Its zone.</param>
    /// <param name="diameterMetres">Design diameter of the pile, metres.</param>
    /// <param name="axes">Axes of the site grid on the CRS grid; null where deviations along them are always known.</param>
    public static PositionLimit Position(Zone zone, double diameterMetres, GridRotation? axes = null)
    {
        ArgumentNullException.ThrowIfNull(zone);
        Limits limits = zone.Limits;
        double? radial = Smaller(limits.RadialMetres, limits.RadialDiameterRatio * diameterMetres);
        double corner = Math.Sqrt(Square(limits.AlongMetres) + Square(limits.AcrossMetres));
        return new PositionLimit(radial ?? corner, limits.AlongMetres, limits.AcrossMetres)
        {
            SetsRadial = radial is not null,
            AlertRadialMetres = Smaller(zone.AlertRadialMetres, zone.Alerts?.RadialDiameterRatio * diameterMetres),
            AlertAlongMetres = zone.Alerts?.AlongMetres,
            AlertAcrossMetres = zone.Alerts?.AcrossMetres,
            Axes = axes,
        };
    }

    /// <summary>Limit of the as-built top, either way.</summary>
    public static LevelLimit Top(Zone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return new LevelLimit(zone.Limits.TopMetres, zone.Limits.TopMetres, zone.Alerts?.TopMetres);
    }

    /// <summary>Limit of the as-built tip, which may be deeper than designed.</summary>
    public static LevelLimit Tip(Zone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return new LevelLimit(zone.Limits.TipShortMetres, null, zone.Alerts?.TipShortMetres);
    }

    /// <summary>An inclination held against its limit, degrees; null where the contract sets none.</summary>
    public static LimitAnswer? Inclination(Zone zone, double degrees)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return zone.Limits.InclinationDegrees is { } limit ? new LimitAnswer(degrees, limit, zone.Alerts?.InclinationDegrees) : null;
    }

    private static double? Smaller(double? one, double? other) => one is { } first && other is { } second ? Math.Min(first, second) : one ?? other;

    private static double Square(double? metres) => (metres ?? 0) * (metres ?? 0);
}
