using System.Globalization;
using SiteProgress.Core.Coordinates;

namespace SiteProgress.Jobs.SiteGrid;

/// <summary>The published shifts that lead from the datum of a site to others.</summary>
internal static class SiteDatums
{
    /// <summary>All of them at the site; none where the definition does not say which geographic system it is on.</summary>
    public static IReadOnlyList<LinkedSystem> Around(CoordinateService service)
        => service.Crs.GeographicEpsgCode is { } code ? DatumShifts.Around(code, service.ToGeographic(service.Adjustment.SiteOrigin)) : [];

    /// <summary>The one a person named by its code, or why it cannot be used here.</summary>
    public static (DatumLink? Link, string? Refusal) Find(CoordinateService service, int? shift)
    {
        if (shift is not { } code) return (null, "Choose the published shift that leads to the other datum; none is ever applied by itself.");
        DatumLink? link = Around(service).SelectMany(other => other.Links).FirstOrDefault(one => one.Shift.EpsgCode == code);
        return link is null
            ? (null, string.Create(CultureInfo.InvariantCulture, $"EPSG:{code} is not a shift between {service.Crs.GeographicName} and another datum that can be computed and may be used at this site."))
            : (link, null);
    }
}
