using System.Globalization;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Design;
using SiteProgress.Core.Design.Layouts;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.PileSchedules;

namespace SiteProgress.Jobs.Design;

/// <summary>Something about a layout to be looked at before it is sent in.</summary>
/// <param name="Text">What, as a sentence.</param>
public sealed record LayoutCaution(string Text);

/// <summary>Holds a layout against the zone's design and against what is planned.</summary>
internal static class LayoutAgainstDesign
{
    private const double RatioSlack = 0.0005;
    private const double SandSlack = 0.01;
    private const double LeastMarginMetres = 10;

    /// <summary>What stands against sending it in: numbers that the site does not allow, or that other piles bear.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="settings">Settings of the site.</param>
    /// <param name="site">The site as it stands.</param>
    /// <param name="replaced">Piles whose place the layout takes.</param>
    public static IEnumerable<LayoutProblem> Problems(PileLayout layout, SiteSettings settings, DerivedSite site, IReadOnlyList<PlannedPile> replaced)
    {
        if (PlannedPileTable.NotAllowed(settings.PileNumberCharacters, layout.Piles.Select(pile => pile.Number)) is { } refused)
            yield return new LayoutProblem("Numbers", refused.Number, refused.Expected);
        HashSet<string> free = new(replaced.Select(pile => pile.Number), StringComparer.OrdinalIgnoreCase);
        HashSet<string> taken = new(site.Piles.Select(pile => pile.Judgement.Pile.Number).Where(number => !free.Contains(number)), StringComparer.OrdinalIgnoreCase);
        string[] twice = [.. layout.Piles.Select(pile => pile.Number).Where(taken.Contains)];
        if (twice.Length > 0)
        {
            yield return new LayoutProblem(
                "Numbers", twice.Length == 1 ? twice[0] : Text($"{twice[0]} and {twice.Length - 1} others"),
                "numbers that no other pile of the design bears: another pattern or first number, or let the layout replace what is planned in the zone");
        }
    }

    /// <summary>What to look at.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="zone">Its zone.</param>
    /// <param name="stay">Planned piles that stay beside it.</param>
    public static IEnumerable<LayoutCaution> Cautions(PileLayout layout, Zone zone, IReadOnlyList<PlannedPile> stay)
    {
        LayoutFigures figures = layout.Figures;
        if (Math.Abs(figures.RatioByCell - zone.ReplacementRatio) > RatioSlack)
            yield return new(Text($"The pattern gives a replacement ratio of {figures.RatioByCell:0.0000}; the design of zone {zone.Code} says {zone.ReplacementRatio:0.0000}."));
        if (Math.Abs(figures.SandPerMetreInPile - zone.SandPerMetreInPile) > SandSlack * zone.SandPerMetreInPile)
            yield return new(Text($"A pile of this diameter holds {figures.SandPerMetreInPile:0.000} m³ a metre; the design of zone {zone.Code} says {zone.SandPerMetreInPile:0.000} m³."));
        if (zone.Limits.RadialMetres is { } radial && figures.ClearMetres < 2 * radial)
            yield return new(Text($"Neighbours are {figures.ClearMetres * 1000:0} mm apart face to face: two piles each {radial * 1000:0} mm off, as the zone allows, may overlap."));
        if (Outside(layout, zone) is var outside and > 0)
            yield return new(Text($"{outside} of the piles lie outside the outline of zone {zone.Code} in the settings."));
        if (CloseTo(layout, stay) is { Count: > 0 } close)
        {
            yield return new(Text(
                $"{close.Count} of the piles stand closer than a diameter to piles that stay planned, {close[0].Number} to {close[0].Other} first: the two would overlap."));
        }
    }

    /// <summary>Places of planned piles around a layout; empty where there are more than can be drawn.</summary>
    public static IReadOnlyList<SiteCoordinate> Near(PileLayout layout, IReadOnlyList<PlannedPile> stay, int most)
    {
        SiteCoordinate[] corners = [.. layout.Inputs.Rings[0]];
        (double left, double right, double low, double high) = (corners.Min(at => at.XMetres), corners.Max(at => at.XMetres), corners.Min(at => at.YMetres), corners.Max(at => at.YMetres));
        double margin = Math.Max(LeastMarginMetres, Math.Max(right - left, high - low) / 10);
        SiteCoordinate[] near = [.. stay.Select(pile => pile.Position)
            .Where(at => at.XMetres >= left - margin && at.XMetres <= right + margin && at.YMetres >= low - margin && at.YMetres <= high + margin)];
        return near.Length > most ? [] : near;
    }

    private static int Outside(PileLayout layout, Zone zone)
    {
        if (zone.Outline.Count == 0 || SitePolygon.Of([zone.Corners()]).Polygon is not { } outline) return 0;
        return layout.Piles.Count(pile => !outline.Contains(pile.Position));
    }

    private static List<(string Number, string Other)> CloseTo(PileLayout layout, IReadOnlyList<PlannedPile> stay)
    {
        if (stay.Count == 0) return [];
        double reach = (layout.Inputs.DiameterMetres + stay.Max(pile => pile.DiameterMetres)) / 2;
        PlaceIndex places = new(stay, reach);
        List<(string, string)> close = [];
        foreach (LaidPile pile in layout.Piles)
        {
            PlannedPile? other = places.Near(pile.Position).FirstOrDefault(one => one.Position.DistanceToMetres(pile.Position) < ((layout.Inputs.DiameterMetres + one.DiameterMetres) / 2) - SitePolygon.OnBoundaryMetres);
            if (other is not null) close.Add((pile.Number, other.Number));
        }

        return close;
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
