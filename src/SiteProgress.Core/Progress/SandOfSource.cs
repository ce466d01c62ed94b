using SiteProgress.Core.Checks;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Progress;

/// <summary>The sand of one source over the whole work: what came, what went into piles that stand, and what volume they were to have.</summary>
/// <param name="Source">Sand source.</param>
/// <param name="ApprovedFactor">Its C by the settings, volume in the pile over loose volume in the casing; null where they name none.</param>
/// <param name="DeliveredCubicMetres">Loads taken over, loose cubic metres.</param>
/// <param name="WastedCubicMetres">Sand lost, loose cubic metres.</param>
/// <param name="Piles">Piles that stand with sand and length on record.</param>
/// <param name="WithoutSand">Piles that stand without.</param>
/// <param name="InCasingUsed">Loose volume over the installations they stand on, whole, cubic metres.</param>
/// <param name="InCasingStanding">Loose volume of the parts that stand, cubic metres.</param>
/// <param name="InPile">The same times C, cubic metres in the pile.</param>
/// <param name="DesignInPile">Design section times built length, cubic metres in the pile.</param>
public sealed record SandOfSource(
    string Source, double? ApprovedFactor, double DeliveredCubicMetres, double WastedCubicMetres, int Piles, int WithoutSand,
    double InCasingUsed, double InCasingStanding, double InPile, double DesignInPile)
{
    /// <summary>
    /// C observed: design volume of the built length over the loose sand that stands in it. With this C the piles would have just their
    /// design section; an approved C above it says that they hold more. Null without sand. (From the mass balance of a pile: volume in the
    /// pile = C times loose volume; common practice, no source.)
    /// </summary>
    public double? ObservedFactor => InCasingStanding > 0 && DesignInPile > 0 ? DesignInPile / InCasingStanding : null;

    /// <summary>Sand in the piles over what the design wants for the built length; null where nothing is wanted.</summary>
    public double? OfDesignRatio => DesignInPile > 0 ? InPile / DesignInPile : null;

    /// <summary>The sources of a site in the order of its settings, and after them others that deliveries name.</summary>
    /// <param name="settings">Settings in force.</param>
    /// <param name="piles">Piles as judged.</param>
    /// <param name="deliveries">Lines of the sand account.</param>
    public static IReadOnlyList<SandOfSource> Of(SiteSettings settings, IEnumerable<PileJudgement> piles, IEnumerable<SandDelivery> deliveries)
    {
        ArgumentNullException.ThrowIfNull(settings);
        ILookup<string, SandFigures> sands = piles.Where(pile => pile is { Standing.Count: > 0, Sand: not null }).ToLookup(pile => pile.Sand!.SandSource, pile => pile.Sand!, StringComparer.OrdinalIgnoreCase);
        ILookup<string, SandDelivery> lines = deliveries.ToLookup(line => line.Source, StringComparer.OrdinalIgnoreCase);
        IEnumerable<string> names = settings.SandSources.Select(source => source.Name).Concat(sands.Select(source => source.Key)).Concat(lines.Select(source => source.Key)).Distinct(StringComparer.OrdinalIgnoreCase);
        return [.. names.Select(name => One(name, settings.FindSandSource(name)?.VolumeChangeFactor, [.. sands[name]], [.. lines[name]]))];
    }

    private static SandOfSource One(string name, double? factor, SandFigures[] sands, SandDelivery[] lines)
    {
        SandFigures[] known = [.. sands.Where(sand => sand is { InCasingUsed: not null, InCasingStanding: not null, DesignInPile: not null })];
        return new SandOfSource(
            name, factor, Sum(SandEntry.Delivered), Sum(SandEntry.Wasted), known.Length, sands.Length - known.Length,
            known.Sum(sand => sand.InCasingUsed!.Value), known.Sum(sand => sand.InCasingStanding!.Value), known.Sum(sand => sand.InPile ?? 0), known.Sum(sand => sand.DesignInPile!.Value));

        double Sum(SandEntry entry) => lines.Where(line => line.Entry == entry).Sum(line => line.CubicMetres);
    }
}
