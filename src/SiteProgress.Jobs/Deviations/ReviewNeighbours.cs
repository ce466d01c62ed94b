using Npgsql;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Neighbours;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.Deviations;

/// <summary>Holds the spacing of built neighbours against the design.</summary>
public sealed class ReviewNeighbours(NpgsqlDataSource store)
{
    /// <summary>Piles drawn around a pair.</summary>
    private const double SketchSpacings = 2;

    /// <summary>Which neighbours, and what is allowed.</summary>
    /// <param name="Zone">Zone; null for all.</param>
    /// <param name="WiderMetres">By how much a pair may be farther apart than designed; null for the radial limit of its zone.</param>
    /// <param name="CloserMetres">By how much a pair may be closer; null for the radial limit of its zone.</param>
    /// <param name="One">One pile of the pair to draw; null for the widest.</param>
    /// <param name="Other">The other.</param>
    public sealed record Request(string? Zone = null, double? WiderMetres = null, double? CloserMetres = null, string? One = null, string? Other = null);

    /// <summary>What was found.</summary>
    /// <param name="SequenceOfRecords">Sequence of the last record it follows from.</param>
    /// <param name="TimeZone">IANA time zone of the site.</param>
    /// <param name="Zones">Zones there are.</param>
    /// <param name="Review">The pairs.</param>
    /// <param name="Drawn">The pair that is drawn; null when there is none.</param>
    /// <param name="Around">Built piles around it, the pair too.</param>
    /// <param name="DrawnAt">Latitude and longitude of the drawn pair, degrees.</param>
    /// <param name="LimitsMetres">What is allowed by zone where nothing else was asked.</param>
    public sealed record View(
        long SequenceOfRecords,
        string? TimeZone,
        IReadOnlyList<string> Zones,
        SpacingReview Review,
        NeighbourPair? Drawn,
        IReadOnlyList<BuiltNeighbour> Around,
        (double Latitude, double Longitude)? DrawnAt,
        IReadOnlyDictionary<string, double> LimitsMetres);

    /// <summary>Reviews them.</summary>
    [Needs(Right.See)]
    public async Task<View> RunAsync(Permit permit, Request request, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        ArgumentNullException.ThrowIfNull(request);
        SiteDeviations site = await SiteDeviations.ReadAsync(store, permit.Site, cancellation);
        BuiltNeighbour[] built = site.Piles.Where(pile => pile.IsJudged && (request.Zone is null || pile.Zone == request.Zone)).Select(Neighbour).ToArray();
        Dictionary<string, double> limits = site.Settings?.Zones.ToDictionary(zone => zone.Code, zone => ContractLimits.Position(zone, zone.DesignDiameterMetres).RadialMetres) ?? [];
        SpacingReview review = NeighbourSpacing.Review(
            built,
            site.Settings?.Zones.ToDictionary(zone => zone.Code, Reach) ?? [],
            pile => request.WiderMetres ?? limits[pile.Zone],
            pile => request.CloserMetres ?? limits[pile.Zone]);
        NeighbourPair? drawn = review.Wider.Concat(review.Closer).FirstOrDefault(pair => Is(pair, request.One, request.Other))
            ?? review.Wider.Concat(review.Closer).FirstOrDefault();
        BuiltPile? place = drawn is null ? null : site.Piles.FirstOrDefault(pile => pile.Number == drawn.One.Number);
        return new View(
            site.Sequence,
            site.Settings?.TimeZone,
            site.Piles.Select(pile => pile.Zone).Distinct().Order(StringComparer.Ordinal).ToArray(),
            review,
            drawn,
            drawn is null ? [] : built.Where(pile => Near(pile, drawn)).ToArray(),
            place is null ? null : (place.Latitude, place.Longitude),
            limits);
    }

    private static bool Is(NeighbourPair pair, string? one, string? other)
        => one is not null && other is not null && ((pair.One.Number == one && pair.Other.Number == other) || (pair.One.Number == other && pair.Other.Number == one));

    private static bool Near(BuiltNeighbour pile, NeighbourPair pair)
        => Math.Abs(pile.Design.XMetres - ((pair.One.Design.XMetres + pair.Other.Design.XMetres) / 2)) <= SketchSpacings * pair.DesignMetres
        && Math.Abs(pile.Design.YMetres - ((pair.One.Design.YMetres + pair.Other.Design.YMetres) / 2)) <= SketchSpacings * pair.DesignMetres;

    private static BuiltNeighbour Neighbour(BuiltPile pile) => new(
        pile.Number,
        pile.Zone,
        new SiteCoordinate(pile.DesignX, pile.DesignY),
        new SiteCoordinate(pile.DesignX + pile.Deviation!.Value.AlongMetres, pile.DesignY + pile.Deviation.Value.AcrossMetres),
        pile.DesignDiameter,
        pile.MeanDiameter ?? pile.DesignDiameter,
        !pile.IsBeyond);

    /// <summary>The next pile along, across and diagonally; of a triangular pattern the six around.</summary>
    private static double Reach(Zone zone)
    {
        double second = zone.SecondSpacingMetres ?? zone.SpacingMetres;
        return 1.1 * (zone.Pattern == Pattern.Triangular ? zone.SpacingMetres : Math.Sqrt((zone.SpacingMetres * zone.SpacingMetres) + (second * second)));
    }
}
