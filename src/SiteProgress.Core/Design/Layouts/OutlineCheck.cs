using System.Globalization;
using NetTopologySuite.Algorithm;
using NetTopologySuite.Geometries;
using SiteProgress.Core.Coordinates;

namespace SiteProgress.Core.Design.Layouts;

/// <summary>Says why corners make no outline: too few, not numbers, sides that cross or touch, no area.</summary>
internal static class OutlineCheck
{
    private const int MostCorners = 2_000;
    private const double FarthestMetres = 1e8;
    private const double WidestMetres = 50_000;
    private const double SameCornerMetres = 1e-6;
    private const double LeastAreaSquareMetres = 0.01;

    /// <summary>A side of a ring with the numbers of its corners as they were given.</summary>
    private readonly record struct Side(int Ring, int Place, int Of, int FirstCorner, int SecondCorner, Coordinate From, Coordinate To)
    {
        public string Name => string.Create(CultureInfo.InvariantCulture, $"the side from corner {FirstCorner} to {SecondCorner}{(Ring == 0 ? "" : $" of part {Ring} left out")}");
    }

    /// <summary>The first problem; null where the rings make an outline.</summary>
    /// <param name="rings">Rings as given.</param>
    /// <param name="plain">The rings without repeated corners.</param>
    public static LayoutProblem? Problem(IReadOnlyList<IReadOnlyList<SiteCoordinate>> rings, out IReadOnlyList<IReadOnlyList<SiteCoordinate>> plain)
    {
        plain = [];
        if (Numbers(rings) is { } wrong) return wrong;
        (int Number, SiteCoordinate At)[][] corners = [.. rings.Select(Plain)];
        for (int ring = 0; ring < corners.Length; ring++)
        {
            if (corners[ring].Length < 3)
                return new LayoutProblem(Name(ring), corners[ring].Length == 1 ? "1 corner" : Text($"{corners[ring].Length} {(corners[ring].Length < rings[ring].Count ? "different " : "")}corners"), "at least three corners");
        }

        if (Crossing([.. corners.SelectMany(Sides)]) is { } crossing) return crossing;
        plain = [.. corners.Select(ring => ring.Select(one => one.At).ToArray())];
        return Areas(plain);
    }

    private static LayoutProblem? Numbers(IReadOnlyList<IReadOnlyList<SiteCoordinate>> rings)
    {
        if (rings.Sum(ring => ring.Count) > MostCorners)
            return new LayoutProblem("Outline", Text($"{rings.Sum(ring => ring.Count)} corners"), Text($"at most {MostCorners} corners"));
        for (int ring = 0; ring < rings.Count; ring++)
        {
            for (int index = 0; index < rings[ring].Count; index++)
            {
                SiteCoordinate at = rings[ring][index];
                if (!(Math.Abs(at.XMetres) <= FarthestMetres && Math.Abs(at.YMetres) <= FarthestMetres))
                    return new LayoutProblem(Name(ring), Text($"corner {index + 1}: {at.XMetres}, {at.YMetres}"), "two numbers of metres on the site grid");
            }
        }

        SiteCoordinate[] outer = [.. rings[0]];
        if (outer.Length == 0) return new LayoutProblem("Outline", "no corners", "at least three corners");
        double wide = Math.Max(outer.Max(at => at.XMetres) - outer.Min(at => at.XMetres), outer.Max(at => at.YMetres) - outer.Min(at => at.YMetres));
        return wide > WidestMetres
            ? new LayoutProblem("Outline", Text($"corners {wide / 1000:0.0} km apart"), Text($"corners in metres of the site grid, at most {WidestMetres / 1000:0} km apart; are they millimetres, or is one in another frame?"))
            : null;
    }

    private static (int Number, SiteCoordinate At)[] Plain(IReadOnlyList<SiteCoordinate> ring)
    {
        List<(int Number, SiteCoordinate At)> corners = [];
        for (int index = 0; index < ring.Count; index++)
        {
            if (corners.Count == 0 || corners[^1].At.DistanceToMetres(ring[index]) > SameCornerMetres) corners.Add((index + 1, ring[index]));
        }

        if (corners.Count > 1 && corners[^1].At.DistanceToMetres(corners[0].At) <= SameCornerMetres) corners.RemoveAt(corners.Count - 1);
        return [.. corners];
    }

    private static IEnumerable<Side> Sides((int Number, SiteCoordinate At)[] ring, int number)
        => ring.Select((corner, place) =>
        {
            (int Number, SiteCoordinate At) next = ring[(place + 1) % ring.Length];
            return new Side(number, place, ring.Length, corner.Number, next.Number, Of(corner.At), Of(next.At));
        });

    private static LayoutProblem? Crossing(Side[] sides)
    {
        for (int one = 0; one < sides.Length; one++)
        {
            for (int other = one + 1; other < sides.Length; other++)
            {
                if (!Disturbs(sides[one], sides[other])) continue;
                return new LayoutProblem("Outline", $"{sides[one].Name} meets {sides[other].Name}", "sides that neither cross nor touch; are the corners in order?");
            }
        }

        return null;
    }

    private static bool Disturbs(in Side one, in Side other)
    {
        if (!new Envelope(one.From, one.To).Intersects(new Envelope(other.From, other.To))) return false;
        if (one.Ring == other.Ring && (other.Place == one.Place + 1 || (one.Place == 0 && other.Place == one.Of - 1)))
        {
            // Neighbours share a corner; they disturb where the second runs back along the first.
            (Coordinate shared, Coordinate before, Coordinate after) = other.Place == one.Place + 1 ? (one.To, one.From, other.To) : (one.From, one.To, other.From);
            bool back = ((before.X - shared.X) * (after.X - shared.X)) + ((before.Y - shared.Y) * (after.Y - shared.Y)) > 0;
            return back && Orientation.Index(before, shared, after) == OrientationIndex.Collinear;
        }

        return (int)Orientation.Index(one.From, one.To, other.From) * (int)Orientation.Index(one.From, one.To, other.To) <= 0
            && (int)Orientation.Index(other.From, other.To, one.From) * (int)Orientation.Index(other.From, other.To, one.To) <= 0;
    }

    private static LayoutProblem? Areas(IReadOnlyList<IReadOnlyList<SiteCoordinate>> rings)
    {
        for (int ring = 0; ring < rings.Count; ring++)
        {
            if (Math.Abs(SitePolygon.SignedArea(rings[ring])) < LeastAreaSquareMetres)
                return new LayoutProblem(Name(ring), "corners in one line", "corners around an area");
        }

        for (int ring = 1; ring < rings.Count; ring++)
        {
            if (!Within(rings[ring][0], rings[0])) return new LayoutProblem(Name(ring), "it lies outside the outline", "a part inside the outline");
            for (int other = 1; other < rings.Count; other++)
            {
                if (other != ring && Within(rings[ring][0], rings[other]))
                    return new LayoutProblem(Name(ring), Text($"it lies inside part {other} left out"), "parts that lie beside each other");
            }
        }

        return null;
    }

    private static bool Within(SiteCoordinate at, IReadOnlyList<SiteCoordinate> ring)
        => PointLocation.IsInRing(Of(at), [.. ring.Select(Of), Of(ring[0])]);

    private static Coordinate Of(SiteCoordinate at) => new(at.XMetres, at.YMetres);

    private static string Name(int ring) => ring == 0 ? "Outline" : Text($"Part {ring} left out");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
