using NetTopologySuite.Geometries;
using NetTopologySuite.Index.HPRtree;
using SiteProgress.Core.Coordinates;

namespace SiteProgress.Core.Ground;

/// <summary>The ground that belongs to one point.</summary>
/// <param name="AreaSquareMetres">Its area, square metres; 0 where the point lies so far outside its outline that nothing of it is left.</param>
/// <param name="Corners">Its corners, site grid, counter-clockwise.</param>
/// <param name="Neighbours">Places of the points it borders on, in the order given.</param>
/// <param name="ReachesOutline">True where it ends at the outline rather than at a neighbour.</param>
public sealed record TributaryArea(double AreaSquareMetres, IReadOnlyList<SiteCoordinate> Corners, IReadOnlyList<int> Neighbours, bool ReachesOutline);

/// <summary>
/// Shares the ground out among points: each gets what is nearer to it than to any other, within its outline. (Voronoi's division of the
/// plane, known as Thiessen polygons; plane geometry.)
/// </summary>
/// <remarks>
/// Each area is cut from the outline by the perpendicular bisectors towards the points around, the nearest first, until no point
/// farther off can cut any more: one twice as far away as the farthest corner that is left. An outline may be concave.
/// </remarks>
public static class TributaryAreas
{
    /// <summary>Shares of a border below this are chance of the last digits, metres.</summary>
    private const double LeastBorderMetres = 1e-6;

    /// <summary>Cuts the area of every point.</summary>
    /// <param name="points">The points, site grid, metres; finite. Several in one place share its ground equally.</param>
    /// <param name="outlineOf">Outline of the ground of a point by its place: corners without repetition of the first, either way round.</param>
    /// <param name="reachMetres">About how far neighbours are, metres; above zero. It only sets where the search begins.</param>
    /// <returns>The areas in the order of the points.</returns>
    public static TributaryArea[] Of(IReadOnlyList<SiteCoordinate> points, Func<int, IReadOnlyList<SiteCoordinate>> outlineOf, double reachMetres)
    {
        ArgumentNullException.ThrowIfNull(points);
        ArgumentNullException.ThrowIfNull(outlineOf);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(reachMetres);
        HPRtree<int> index = new();
        for (int place = 0; place < points.Count; place++) index.Insert(Around(points[place], 0), place);
        if (points.Count > 0) index.Build();
        TributaryArea[] areas = new TributaryArea[points.Count];
        for (int place = 0; place < points.Count; place++) areas[place] = Cut(points, place, outlineOf(place), index, reachMetres);
        return areas;
    }

    private static TributaryArea Cut(IReadOnlyList<SiteCoordinate> points, int own, IReadOnlyList<SiteCoordinate> outline, HPRtree<int> index, double reach)
    {
        while (true)
        {
            CutPolygon polygon = new(points[own], outline);
            int sharing = 1;
            List<(double Distance, int Place)> around = [.. index.Query(Around(points[own], reach)).Where(place => place != own)
                .Select(place => (points[own].DistanceToMetres(points[place]), place))];
            around.Sort();
            foreach ((double distance, int place) in around)
            {
                if (distance > 2 * polygon.FarthestMetres) break;
                if (distance < LeastBorderMetres) sharing++;
                else polygon.CutTowards(points[place], place);
            }

            // Whoever is beyond the reach is farther off than it; where that is too far to cut, or everybody was asked, the area stands.
            if (2 * polygon.FarthestMetres <= reach || around.Count == points.Count - 1) return polygon.Area(sharing);
            reach = Math.Max(2 * reach, 1e-3);
        }
    }

    private static Envelope Around(SiteCoordinate at, double reach) => new(at.XMetres - reach, at.XMetres + reach, at.YMetres - reach, at.YMetres + reach);

    /// <summary>What is left of an outline, and whose border each of its edges is.</summary>
    private sealed class CutPolygon
    {
        private const int OfOutline = -1;
        private readonly SiteCoordinate _own;
        private List<(double X, double Y, int BorderOf)> _corners;
        private List<(double X, double Y, int BorderOf)> _spare;

        public CutPolygon(SiteCoordinate own, IReadOnlyList<SiteCoordinate> outline)
        {
            // Reckoned from the point itself: coordinates of a national grid would cost seven digits.
            _own = own;
            _corners = [.. outline.Select(corner => (corner.XMetres - own.XMetres, corner.YMetres - own.YMetres, OfOutline))];
            if (TwiceArea() < 0) _corners.Reverse();
            _spare = new(_corners.Count + 8);
            Measure();
        }

        public double FarthestMetres { get; private set; }

        /// <summary>Keeps what is nearer to the own point than to another.</summary>
        public void CutTowards(SiteCoordinate other, int place)
        {
            double x = other.XMetres - _own.XMetres, y = other.YMetres - _own.YMetres;
            double half = ((x * x) + (y * y)) / 2;
            _spare.Clear();
            bool cut = false;
            for (int corner = 0; corner < _corners.Count; corner++)
            {
                (double X, double Y, int BorderOf) from = _corners[corner], to = _corners[(corner + 1) % _corners.Count];
                double fromBeyond = (from.X * x) + (from.Y * y) - half, toBeyond = (to.X * x) + (to.Y * y) - half;
                if (fromBeyond <= 0) _spare.Add(from);
                if (fromBeyond <= 0 == toBeyond <= 0) continue;
                double share = fromBeyond / (fromBeyond - toBeyond);
                _spare.Add((from.X + (share * (to.X - from.X)), from.Y + (share * (to.Y - from.Y)), fromBeyond <= 0 ? place : from.BorderOf));
                cut = true;
            }

            if (!cut && _spare.Count == _corners.Count) return;
            (_corners, _spare) = (_spare, _corners);
            Measure();
        }

        public TributaryArea Area(int sharing)
        {
            (int BorderOf, double Length)[] borders = [.. _corners.Select((corner, place) => (corner.BorderOf, Length(corner, _corners[(place + 1) % _corners.Count])))];
            return new TributaryArea(
                Math.Max(0, TwiceArea()) / 2 / sharing,
                [.. _corners.Select(corner => new SiteCoordinate(corner.X + _own.XMetres, corner.Y + _own.YMetres))],
                [.. borders.Where(border => border.BorderOf != OfOutline && border.Length > LeastBorderMetres).Select(border => border.BorderOf).Distinct().Order()],
                borders.Any(border => border.BorderOf == OfOutline && border.Length > LeastBorderMetres));
        }

        private static double Length((double X, double Y, int) from, (double X, double Y, int) to) => double.Hypot(to.X - from.X, to.Y - from.Y);

        private void Measure() => FarthestMetres = _corners.Count == 0 ? 0 : _corners.Max(corner => double.Hypot(corner.X, corner.Y));

        private double TwiceArea()
        {
            double sum = 0;
            for (int corner = 0; corner < _corners.Count; corner++)
            {
                (double X, double Y, int) from = _corners[corner], to = _corners[(corner + 1) % _corners.Count];
                sum += (from.X * to.Y) - (to.X * from.Y);
            }

            return sum;
        }
    }
}
