using System.Globalization;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>
/// Shifts whose recorded tip levels follow the water: read from the deck or the water surface, and the water level left out. The
/// tips of such a shift stray about the design as the water moved, and no longer do when the gauge's level is added.
/// </summary>
/// <remarks>
/// The shift of a barge is the unit, because that is how long a setting is forgotten. Where the water hardly moved nothing can be
/// told. The thresholds are common practice without a source.
/// </remarks>
internal static class WaterSuspicions
{
    private const int LeastPiles = 8;
    private const double LeastMovementMetres = 0.2, MostOfSpread = 0.4;

    /// <summary>The suspicions, one a barge and shift.</summary>
    /// <param name="installations">The records to judge.</param>
    /// <param name="site">The site with its water levels.</param>
    public static IEnumerable<string> Of(IReadOnlyCollection<DerivedInstallation> installations, DerivedSite site)
    {
        if (installations.Count == 0 || SiteWater.Of(site.History) is not { } water) yield break;
        Dictionary<string, double> design = new(StringComparer.OrdinalIgnoreCase);
        foreach (DerivedPile pile in site.Piles)
        {
            if (pile.Judgement.Pile.TipLevelMetres is { } tip) design[pile.Judgement.Pile.Number] = tip;
        }

        WorkingDays days = new(site.History.Settings!);
        var shifts = installations.Where(one => one.Located.Recorded is { Outcome: Outcome.Complete, TipLevelMetres: not null } && one.Levels is null)
            .Select(one => (Built: one.Located.Recorded, At: one.Located.Recorded.EndOfPenetration ?? one.Located.Recorded.End))
            .Where(one => one.At is not null && design.ContainsKey(one.Built.PileNumber.Trim()))
            .GroupBy(one => (one.Built.Barge, Moment: days.At(one.At!.Value)))
            .OrderBy(shift => shift.Key.Moment.Day).ThenBy(shift => shift.Key.Moment.Shift, StringComparer.Ordinal).ThenBy(shift => shift.Key.Barge, StringComparer.Ordinal);
        foreach (var shift in shifts)
        {
            (double Tip, double Water)[] read = [.. shift
                .Select(one => (Tip: one.Built.TipLevelMetres!.Value - design[one.Built.PileNumber.Trim()], Water: water.At(one.At!.Value).LevelMetres))
                .Where(one => one.Water is not null).Select(one => (one.Tip, one.Water!.Value))];
            if (Judge(read) is not var (without, with)) continue;
            yield return string.Create(CultureInfo.InvariantCulture,
                $"Tip levels of {shift.Key.Barge} on {shift.Key.Moment.Day:uuuu-MM-dd}, {shift.Key.Moment.Shift} shift, look read without the water level: those of {read.Length} piles stray {without:0.00} m about the design while the water stood between {read.Min(one => one.Water):0.00;−0.00} and {read.Max(one => one.Water):0.00;−0.00} m; with the level of gauge {water.Gauge} added they stray {with:0.00} m.");
        }
    }

    /// <summary>How far the tips stray as recorded and with the water added; null where nothing is to be suspected.</summary>
    private static (double Without, double With)? Judge((double Tip, double Water)[] read)
    {
        if (read.Length < LeastPiles || Spread(read.Select(one => one.Water)) < LeastMovementMetres) return null;
        (double without, double with) = (Spread(read.Select(one => one.Tip)), Spread(read.Select(one => one.Tip + one.Water)));
        return without >= LeastMovementMetres && with <= MostOfSpread * without ? (without, with) : null;
    }

    /// <summary>The median distance from the median, times 1.4826: the standard deviation of normal noise, unmoved by a few mistakes.</summary>
    private static double Spread(IEnumerable<double> values)
    {
        double[] all = [.. values];
        double middle = Middle(all);
        return 1.4826 * Middle(Array.ConvertAll(all, value => Math.Abs(value - middle)));
    }

    private static double Middle(double[] values)
    {
        double[] sorted = [.. values.Order()];
        return (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
    }
}
