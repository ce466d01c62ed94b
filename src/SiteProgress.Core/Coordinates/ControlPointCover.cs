using System.Globalization;
using NetTopologySuite.Algorithm;
using NetTopologySuite.Geometries;

namespace SiteProgress.Core.Coordinates;

/// <summary>Whether the control points surround the place they are used for.</summary>
/// <param name="OutsideCount">Points of the site outside the marks' convex hull.</param>
/// <param name="FarthestOutsideMetres">Distance of the farthest of them from the hull, metres.</param>
/// <param name="Warning">What to say to a surveyor; null where the marks surround the site.</param>
public sealed record ControlPointCover(int OutsideCount, double FarthestOutsideMetres, string? Warning)
{
    /// <summary>Looks at piles (or any points of the site) against the hull of the marks, both in the site grid.</summary>
    public static ControlPointCover Look(IReadOnlyList<ControlPoint> marks, IReadOnlyList<SiteCoordinate> site)
    {
        ArgumentNullException.ThrowIfNull(marks);
        ArgumentNullException.ThrowIfNull(site);
        var factory = new GeometryFactory();
        var hull = new ConvexHull([.. marks.Select(m => new Coordinate(m.Site.XMetres, m.Site.YMetres))], factory).GetConvexHull();
        var count = 0;
        double farthest = 0;
        foreach (var point in site)
        {
            var distance = hull.Distance(factory.CreatePoint(new Coordinate(point.XMetres, point.YMetres)));
            if (distance <= 0) continue;
            count++;
            farthest = Math.Max(farthest, distance);
        }

        return new(count, farthest, count == 0 ? null : string.Create(CultureInfo.InvariantCulture,
            $"The control points do not surround the site: {count} of {site.Count} points lie outside them, the farthest by {farthest:0} m, where the fit is extrapolated."));
    }
}
