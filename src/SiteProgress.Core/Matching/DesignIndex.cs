using NetTopologySuite.Geometries;
using NetTopologySuite.Index.HPRtree;
using NodaTime;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Matching;

/// <summary>A planned pile as one revision of the design has it, for a span of time.</summary>
/// <param name="Pile">The pile, under the number it has now.</param>
/// <param name="NumberThen">The number it had then.</param>
/// <param name="From">From when.</param>
/// <param name="Until">Until when, itself not in the span.</param>
public sealed record DesignEntry(PlannedPile Pile, string NumberThen, Instant From, Instant Until)
{
    /// <summary>True where this is how the pile was planned at a moment; where the moment is not known, how it was planned last.</summary>
    internal bool HoldsAt(Instant? at) => at is { } moment ? From <= moment && moment < Until : Until == Instant.MaxValue;
}

/// <summary>The design through its revisions, found by number or by place as it was in force at a moment. A pile goes by the number it has now.</summary>
public sealed class DesignIndex
{
    private readonly ILookup<string, DesignEntry> _byNumberThen;
    private readonly ILookup<string, DesignEntry> _byNumber;
    private readonly HPRtree<DesignEntry> _byPlace = new();
    private readonly Dictionary<string, double> _reachByZone;
    private readonly double _largestReachMetres;

    /// <summary>Indexes a design that was never revised.</summary>
    /// <param name="piles">Planned piles, one a number.</param>
    /// <param name="settings">Zones, whose half spacing is the reach of their piles.</param>
    public DesignIndex(IEnumerable<PlannedPile> piles, SiteSettings settings)
        : this(piles.Select(pile => new DesignEntry(pile, pile.Number, Instant.MinValue, Instant.MaxValue)), settings)
    {
    }

    /// <summary>Indexes a design through its revisions.</summary>
    /// <param name="entries">Planned piles by revision, at each moment one a number.</param>
    /// <param name="settings">Zones, whose half spacing is the reach of their piles.</param>
    public DesignIndex(IEnumerable<DesignEntry> entries, SiteSettings settings)
    {
        ArgumentNullException.ThrowIfNull(entries);
        ArgumentNullException.ThrowIfNull(settings);
        DesignEntry[] all = [.. entries];
        _byNumberThen = all.ToLookup(entry => entry.NumberThen, StringComparer.OrdinalIgnoreCase);
        _byNumber = all.All(entry => ReferenceEquals(entry.NumberThen, entry.Pile.Number) || entry.NumberThen == entry.Pile.Number)
            ? _byNumberThen : all.ToLookup(entry => entry.Pile.Number, StringComparer.OrdinalIgnoreCase);
        _reachByZone = settings.Zones.ToDictionary(zone => zone.Code, zone => zone.ReachMetres, StringComparer.OrdinalIgnoreCase);
        _largestReachMetres = _reachByZone.Values.DefaultIfEmpty(0).Max();
        foreach (DesignEntry entry in all)
        {
            SiteCoordinate at = entry.Pile.Position;
            _byPlace.Insert(new Envelope(at.XMetres, at.XMetres, at.YMetres, at.YMetres), entry);
        }

        _byPlace.Build();
    }

    /// <summary>The pile that had this number at a moment, or null; capital and small letters are one.</summary>
    /// <param name="number">The number as written then.</param>
    /// <param name="at">The moment; null for the design as it is now.</param>
    public PlannedPile? Find(string number, Instant? at = null)
        => _byNumberThen[number.Trim()].FirstOrDefault(entry => entry.HoldsAt(at))?.Pile;

    /// <summary>The pile that has this number now, as it was planned at a moment, else as it was planned last; or null.</summary>
    internal PlannedPile? FindByNumberNow(string number, Instant? at)
    {
        IEnumerable<DesignEntry> versions = _byNumber[number.Trim()];
        return (versions.FirstOrDefault(entry => entry.HoldsAt(at)) ?? versions.LastOrDefault())?.Pile;
    }

    /// <summary>Half the smallest spacing of the pile's zone, metres.</summary>
    public double ReachMetres(PlannedPile pile)
    {
        ArgumentNullException.ThrowIfNull(pile);
        return _reachByZone.GetValueOrDefault(pile.Zone);
    }

    /// <summary>The nearest planned pile that has this position within its reach, with the distance in metres; or null.</summary>
    /// <param name="position">The position, site grid.</param>
    /// <param name="at">The moment; null for the design as it is now.</param>
    public (PlannedPile Pile, double DistanceMetres)? NearestWithinReach(SiteCoordinate position, Instant? at = null)
    {
        Envelope around = new(
            position.XMetres - _largestReachMetres, position.XMetres + _largestReachMetres,
            position.YMetres - _largestReachMetres, position.YMetres + _largestReachMetres);
        PlannedPile? best = null;
        double least = double.PositiveInfinity;
        foreach (DesignEntry entry in _byPlace.Query(around))
        {
            if (!entry.HoldsAt(at)) continue;
            PlannedPile pile = entry.Pile;
            double distance = DistanceMetres(pile.Position, position);
            bool nearer = distance < least
                || (distance == least && string.CompareOrdinal(pile.Number, best!.Number) < 0);
            if (distance <= ReachMetres(pile) && nearer) (best, least) = (pile, distance);
        }

        return best is null ? null : (best, least);
    }

    /// <summary>The largest reach of any pile, metres; 0 where no zone has piles.</summary>
    public double LargestReachMetres => _largestReachMetres;

    /// <summary>All piles of the design as it is now within a distance of a position, whatever their reach, in no order.</summary>
    /// <param name="position">The position, site grid.</param>
    /// <param name="metres">The distance, metres.</param>
    public IEnumerable<PlannedPile> Near(SiteCoordinate position, double metres) => _byPlace
        .Query(new Envelope(position.XMetres - metres, position.XMetres + metres, position.YMetres - metres, position.YMetres + metres))
        .Where(entry => entry.HoldsAt(null) && DistanceMetres(entry.Pile.Position, position) <= metres)
        .Select(entry => entry.Pile);

    /// <summary>All piles planned at a moment that have this position within their reach.</summary>
    internal IEnumerable<PlannedPile> WithinReach(SiteCoordinate position, Instant? at) => _byPlace
        .Query(new Envelope(
            position.XMetres - _largestReachMetres, position.XMetres + _largestReachMetres,
            position.YMetres - _largestReachMetres, position.YMetres + _largestReachMetres))
        .Where(entry => entry.HoldsAt(at) && DistanceMetres(entry.Pile.Position, position) <= ReachMetres(entry.Pile))
        .Select(entry => entry.Pile);

    internal static double DistanceMetres(SiteCoordinate a, SiteCoordinate b)
        => Math.Sqrt(((a.XMetres - b.XMetres) * (a.XMetres - b.XMetres)) + ((a.YMetres - b.YMetres) * (a.YMetres - b.YMetres)));
}
