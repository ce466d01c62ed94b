using SiteProgress.Core.Coordinates;

namespace SiteProgress.Core.Design.Layouts;

/// <summary>A plane outline on the site grid, metres: one outer ring and parts that are left out. It does not cross itself.</summary>
public sealed class SitePolygon
{
    private readonly double left, right, low, high;

    private SitePolygon(IReadOnlyList<IReadOnlyList<SiteCoordinate>> rings)
    {
        Rings = rings;
        AreaSquareMetres = Math.Abs(SignedArea(rings[0])) - rings.Skip(1).Sum(ring => Math.Abs(SignedArea(ring)));
        (left, right) = (rings[0].Min(corner => corner.XMetres), rings[0].Max(corner => corner.XMetres));
        (low, high) = (rings[0].Min(corner => corner.YMetres), rings[0].Max(corner => corner.YMetres));
    }

    /// <summary>
    /// A point this near to the boundary is on it, metres: corners are written to the millimetre, so nothing finer can be told.
    /// (Our rule; common practice, no source.)
    /// </summary>
    public static double OnBoundaryMetres => 0.001;

    /// <summary>Corners of each ring, the last one not repeated; the first ring is the outer one.</summary>
    public IReadOnlyList<IReadOnlyList<SiteCoordinate>> Rings { get; }

    /// <summary>Area inside, the parts left out taken off, square metres.</summary>
    public double AreaSquareMetres { get; }

    /// <summary>Least corner, site grid.</summary>
    public SiteCoordinate Least => new(left, low);

    /// <summary>Greatest corner, site grid.</summary>
    public SiteCoordinate Greatest => new(right, high);

    /// <summary>Makes an outline of its corners in order, either way round.</summary>
    /// <param name="rings">Outer ring first, then parts left out; a last corner that repeats the first is passed over.</param>
    /// <returns>The outline, or the first reason why these corners make none.</returns>
    public static (SitePolygon? Polygon, LayoutProblem? Problem) Of(IReadOnlyList<IReadOnlyList<SiteCoordinate>> rings)
    {
        ArgumentNullException.ThrowIfNull(rings);
        if (rings.Count == 0) return (null, new LayoutProblem("Outline", "no corners", "at least three corners"));
        return OutlineCheck.Problem(rings, out IReadOnlyList<IReadOnlyList<SiteCoordinate>> plain) is { } problem ? (null, problem) : (new SitePolygon(plain), null);
    }

    /// <summary>True inside and on the boundary, to <see cref="OnBoundaryMetres"/>.</summary>
    public bool Contains(SiteCoordinate at)
    {
        double slack = OnBoundaryMetres;
        if (!(at.XMetres >= left - slack && at.XMetres <= right + slack && at.YMetres >= low - slack && at.YMetres <= high + slack)) return false;
        return IsInside(at) || BoundaryDistanceMetres(at) <= slack;
    }

    /// <summary>Distance to the nearest point of the boundary, metres, wherever the point lies.</summary>
    public double BoundaryDistanceMetres(SiteCoordinate at)
    {
        double nearest = double.PositiveInfinity;
        foreach (IReadOnlyList<SiteCoordinate> ring in Rings)
        {
            for (int index = 0; index < ring.Count; index++)
                nearest = Math.Min(nearest, ToSide(at, ring[index], ring[(index + 1) % ring.Count]));
        }

        return nearest;
    }

    /// <summary>Area of a ring after the shoelace formula, square metres, positive where the first axis turns to the second; counted from its first corner so that large coordinates cost no digits.</summary>
    internal static double SignedArea(IReadOnlyList<SiteCoordinate> ring)
    {
        double twice = 0;
        SiteCoordinate first = ring[0];
        for (int index = 1; index + 1 < ring.Count; index++)
        {
            twice += ((ring[index].XMetres - first.XMetres) * (ring[index + 1].YMetres - first.YMetres))
                - ((ring[index + 1].XMetres - first.XMetres) * (ring[index].YMetres - first.YMetres));
        }

        return twice / 2;
    }

    /// <summary>Distance from a point to a side, metres.</summary>
    internal static double ToSide(SiteCoordinate at, SiteCoordinate from, SiteCoordinate to)
    {
        (double alongX, double alongY) = (to.XMetres - from.XMetres, to.YMetres - from.YMetres);
        (double x, double y) = (at.XMetres - from.XMetres, at.YMetres - from.YMetres);
        double length = (alongX * alongX) + (alongY * alongY);
        double share = length == 0 ? 0 : Math.Clamp(((x * alongX) + (y * alongY)) / length, 0, 1);
        return double.Hypot(x - (share * alongX), y - (share * alongY));
    }

    /// <summary>Even number of crossings of a line to one side: outside. What lies on the boundary is decided by its distance before.</summary>
    private bool IsInside(SiteCoordinate at)
    {
        bool inside = false;
        foreach (IReadOnlyList<SiteCoordinate> ring in Rings)
        {
            for (int index = 0; index < ring.Count; index++)
            {
                (SiteCoordinate one, SiteCoordinate other) = (ring[index], ring[(index + 1) % ring.Count]);
                if (one.YMetres > at.YMetres == other.YMetres > at.YMetres) continue;
                double crossing = one.XMetres + ((at.YMetres - one.YMetres) / (other.YMetres - one.YMetres) * (other.XMetres - one.XMetres));
                if (at.XMetres < crossing) inside = !inside;
            }
        }

        return inside;
    }
}
