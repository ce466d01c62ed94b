using NetTopologySuite.Geometries;
using NetTopologySuite.Index.HPRtree;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Matching;

/// <summary>The design in force, found by number or by place.</summary>
public sealed class DesignIndex
{
    private readonly Dictionary<string, PlannedPile> _byNumber;
    private readonly HPRtree<PlannedPile> _byPlace = new();
    private readonly Dictionary<string, double> _reachByZone;
    private readonly double _largestReachMetres;

    /// <summary>Indexes the planned piles of a site.</summary>
    /// <param name="piles">Planned piles, one a number.</param>
    /// <param name="settings">Zones, whose half spacing is the reach of their piles.</param>
    public DesignIndex(IEnumerable<PlannedPile> piles, SiteSettings settings)
    {
        ArgumentNullException.ThrowIfNull(piles);
        ArgumentNullException.ThrowIfNull(settings);
        _byNumber = piles.ToDictionary(pile => pile.Number, StringComparer.OrdinalIgnoreCase);
        _reachByZone = settings.Zones.ToDictionary(zone => zone.Code, zone => zone.ReachMetres, StringComparer.OrdinalIgnoreCase);
        _largestReachMetres = _reachByZone.Values.DefaultIfEmpty(0).Max();
        foreach (PlannedPile pile in _byNumber.Values)
        {
            _byPlace.Insert(new Envelope(pile.Position.XMetres, pile.Position.XMetres, pile.Position.YMetres, pile.Position.YMetres), pile);
        }

        _byPlace.Build();
    }

    /// <summary>The planned piles.</summary>
    public IReadOnlyCollection<PlannedPile> Piles => _byNumber.Values;

    /// <summary>The pile with this number, or null; capital and small letters are one.</summary>
    public PlannedPile? Find(string number) => _byNumber.GetValueOrDefault(number.Trim());

    /// <summary>Half the smallest spacing of the pile's zone, metres.</summary>
    public double ReachMetres(PlannedPile pile)
    {
        ArgumentNullException.ThrowIfNull(pile);
        return _reachByZone.GetValueOrDefault(pile.Zone);
    }

    /// <summary>The nearest planned pile that has this position within its reach, with the distance in metres; or null.</summary>
    public (PlannedPile Pile, double DistanceMetres)? NearestWithinReach(SiteCoordinate position)
    {
        Envelope around = new(
            position.XMetres - _largestReachMetres, position.XMetres + _largestReachMetres,
            position.YMetres - _largestReachMetres, position.YMetres + _largestReachMetres);
        PlannedPile? best = null;
        double least = double.PositiveInfinity;
        foreach (PlannedPile pile in _byPlace.Query(around))
        {
            double distance = DistanceMetres(pile.Position, position);
            bool nearer = distance < least
                || (distance == least && string.CompareOrdinal(pile.Number, best!.Number) < 0);
            if (distance <= ReachMetres(pile) && nearer) (best, least) = (pile, distance);
        }

        return best is null ? null : (best, least);
    }

    /// <summary>The largest reach of any pile, metres; 0 where no zone has piles.</summary>
    public double LargestReachMetres => _largestReachMetres;

    /// <summary>All planned piles within a distance of a position, whatever their reach, in no order.</summary>
    /// <param name="position">The position, site grid.</param>
    /// <param name="metres">The distance, metres.</param>
    public IEnumerable<PlannedPile> Near(SiteCoordinate position, double metres) => _byPlace
        .Query(new Envelope(position.XMetres - metres, position.XMetres + metres, position.YMetres - metres, position.YMetres + metres))
        .Where(pile => DistanceMetres(pile.Position, position) <= metres);

    /// <summary>All planned piles that have this position within their reach.</summary>
    internal IEnumerable<PlannedPile> WithinReach(SiteCoordinate position) => _byPlace
        .Query(new Envelope(
            position.XMetres - _largestReachMetres, position.XMetres + _largestReachMetres,
            position.YMetres - _largestReachMetres, position.YMetres + _largestReachMetres))
        .Where(pile => DistanceMetres(pile.Position, position) <= ReachMetres(pile));

    internal static double DistanceMetres(SiteCoordinate a, SiteCoordinate b)
        => Math.Sqrt(((a.XMetres - b.XMetres) * (a.XMetres - b.XMetres)) + ((a.YMetres - b.YMetres) * (a.YMetres - b.YMetres)));
}
