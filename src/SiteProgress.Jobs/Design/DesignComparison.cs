using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Design;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Piles;

namespace SiteProgress.Jobs.Design;

/// <summary>Two designs compared, with what is built.</summary>
/// <param name="Difference">What differs.</param>
/// <param name="Built">Numbers, before the change, of piles that differ and for which something stands.</param>
/// <param name="Axes">Names of the axes of the site grid.</param>
public sealed record DesignComparison(DesignDifference Difference, IReadOnlySet<string> Built, GridAxes Axes)
{
    /// <summary>Most piles drawn around those that differ.</summary>
    public static readonly int MostDrawnAround = 4_000;

    private const double LeastMarginMetres = 10;

    /// <summary>Places of piles that are the same in both designs, for the picture; empty where there are too many to draw.</summary>
    public IReadOnlyList<SiteCoordinate> Around { get; init; } = [];

    /// <summary>True where something stands for the pile.</summary>
    public bool IsBuilt(DesignChangeLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return line.Before is { } before && Built.Contains(before.Number);
    }

    /// <summary>Compares two designs of a site.</summary>
    /// <param name="site">The site as it stands.</param>
    /// <param name="before">Planned piles of the first.</param>
    /// <param name="after">Planned piles of the second.</param>
    internal static DesignComparison Of(DerivedSite site, IReadOnlyList<PlannedPile> before, IReadOnlyList<PlannedPile> after)
    {
        GridRotation rotation = site.Frames!.Rotation;
        DesignDifference difference = DesignDifference.Between(before, after, rotation);
        HashSet<string> stands = new(site.Piles.Where(pile => pile.Judgement.Standing.Count > 0).Select(pile => pile.Judgement.Pile.Number), StringComparer.OrdinalIgnoreCase);
        HashSet<string> differ = new(difference.Lines.Select(line => line.After?.Number ?? ""), StringComparer.OrdinalIgnoreCase);
        return new DesignComparison(
            difference,
            difference.Lines.Select(line => line.Before?.Number).OfType<string>().Where(stands.Contains).ToHashSet(StringComparer.OrdinalIgnoreCase),
            site.History.Settings!.GridAxes)
        {
            Around = difference.IsNothing ? [] : Near(difference, [.. after.Where(pile => !differ.Contains(pile.Number)).Select(pile => pile.Position)]),
        };
    }

    /// <summary>Those of the same piles that lie where something differs, with some more all around.</summary>
    private static SiteCoordinate[] Near(DesignDifference difference, SiteCoordinate[] same)
    {
        SiteCoordinate[] places = [.. difference.Lines.SelectMany(line => new[] { line.Before?.Position, line.After?.Position }).OfType<SiteCoordinate>()];
        (double left, double right, double low, double high) = (places.Min(at => at.XMetres), places.Max(at => at.XMetres), places.Min(at => at.YMetres), places.Max(at => at.YMetres));
        double margin = Math.Max(LeastMarginMetres, Math.Max(right - left, high - low) / 6);
        SiteCoordinate[] near = [.. same.Where(at => at.XMetres >= left - margin && at.XMetres <= right + margin && at.YMetres >= low - margin && at.YMetres <= high + margin)];
        return near.Length > MostDrawnAround ? [] : near;
    }
}
