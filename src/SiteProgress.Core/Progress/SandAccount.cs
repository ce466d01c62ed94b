using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Progress;

/// <summary>Sand that one installation used, loose cubic metres.</summary>
/// <param name="At">When the casing left the pile.</param>
/// <param name="Barge">Barge.</param>
/// <param name="Source">Sand source of its zone.</param>
/// <param name="RecordCubicMetres">By its record; null where it does not say.</param>
/// <param name="LogCubicMetres">By its log; null where there is none.</param>
public sealed record SandUse(Instant At, string Barge, string Source, double? RecordCubicMetres, double? LogCubicMetres);

/// <summary>
/// The account of one sand from one measured stock to the next, loose cubic metres: opening stock + deliveries - losses - closing
/// stock must be what the piles used.
/// </summary>
/// <param name="Barge">Barge; empty where the stock is the whole site's.</param>
/// <param name="Source">Sand source.</param>
/// <param name="From">When the opening stock was measured.</param>
/// <param name="To">When the closing stock was measured.</param>
/// <param name="OpeningCubicMetres">Opening stock.</param>
/// <param name="DeliveredCubicMetres">Delivered meanwhile.</param>
/// <param name="WastedCubicMetres">Lost meanwhile.</param>
/// <param name="ClosingCubicMetres">Closing stock.</param>
/// <param name="ByRecordsCubicMetres">Used by the records of the installations that ended meanwhile.</param>
/// <param name="ByLogsCubicMetres">The same with the log in the place of the record where there is one.</param>
/// <param name="Installations">Installations that ended meanwhile.</param>
/// <param name="WithLog">How many of them have a log.</param>
/// <param name="LimitRatio">The site's limit of the difference; null where it sets none.</param>
public sealed record SandPeriod(
    string Barge, string Source, Instant From, Instant To, double OpeningCubicMetres, double DeliveredCubicMetres, double WastedCubicMetres, double ClosingCubicMetres,
    double ByRecordsCubicMetres, double ByLogsCubicMetres, int Installations, int WithLog, double? LimitRatio)
{
    /// <summary>Which account it is.</summary>
    public SandAccountName Name => new(Barge, Source, From, To);

    /// <summary>Used by the account.</summary>
    public double ByAccountCubicMetres => OpeningCubicMetres + DeliveredCubicMetres - WastedCubicMetres - ClosingCubicMetres;

    /// <summary>Used by the records less used by the account: above zero, piles hold more sand than came.</summary>
    public double DifferenceCubicMetres => ByRecordsCubicMetres - ByAccountCubicMetres;

    /// <summary>The difference as a share of what the records used; null where they used none.</summary>
    public double? DifferenceRatio => ByRecordsCubicMetres > 0 ? DifferenceCubicMetres / ByRecordsCubicMetres : null;

    /// <summary>True for a finding: the difference is over the site's limit. Where no pile used sand, it is held against the sand that was there.</summary>
    public bool OverLimit => LimitRatio is { } limit && Math.Abs(DifferenceCubicMetres) > limit * (ByRecordsCubicMetres > 0 ? ByRecordsCubicMetres : OpeningCubicMetres + DeliveredCubicMetres);
}

/// <summary>Holds the sand that came against the sand that went into piles.</summary>
public static class SandAccount
{
    /// <summary>One period between each two stocks of a barge and source, in order of time.</summary>
    /// <param name="lines">Lines of the sand accounts that count.</param>
    /// <param name="uses">Sand that installations used.</param>
    /// <param name="limitRatio">The site's limit of a difference.</param>
    /// <remarks>Where a line of a source names no barge, its stock is the whole site's, and all barges are taken together.</remarks>
    public static IReadOnlyList<SandPeriod> Of(IEnumerable<SandDelivery> lines, IReadOnlyCollection<SandUse> uses, double? limitRatio)
    {
        ArgumentNullException.ThrowIfNull(lines);
        ArgumentNullException.ThrowIfNull(uses);
        SandDelivery[] all = [.. lines];
        HashSet<string> ofSite = [.. all.Where(line => line.Barge is null).Select(line => line.Source)];
        ILookup<(string Barge, string Source), SandUse> usesByKey = uses.ToLookup(use => (ofSite.Contains(use.Source) ? "" : use.Barge, use.Source));
        return [.. all.GroupBy(line => (Barge: ofSite.Contains(line.Source) ? "" : line.Barge!, line.Source))
            .SelectMany(account => Periods(account.Key, [.. account], [.. usesByKey[account.Key]], limitRatio))
            .OrderBy(period => period.From).ThenBy(period => period.Barge, StringComparer.Ordinal).ThenBy(period => period.Source, StringComparer.Ordinal)];
    }

    private static IEnumerable<SandPeriod> Periods((string Barge, string Source) key, SandDelivery[] lines, SandUse[] uses, double? limitRatio)
    {
        // Stocks of several stores measured at one moment are one stock.
        (Instant At, double CubicMetres)[] stocks = [.. lines.Where(line => line.Entry == SandEntry.StockMeasured)
            .GroupBy(line => line.At).OrderBy(moment => moment.Key).Select(moment => (moment.Key, moment.Sum(line => line.CubicMetres)))];
        for (int place = 0; place + 1 < stocks.Length; place++)
        {
            (Instant from, Instant to) = (stocks[place].At, stocks[place + 1].At);
            SandUse[] used = Array.FindAll(uses, use => from <= use.At && use.At < to);
            yield return new SandPeriod(
                key.Barge, key.Source, from, to, stocks[place].CubicMetres, Sum(SandEntry.Delivered), Sum(SandEntry.Wasted), stocks[place + 1].CubicMetres,
                used.Sum(use => use.RecordCubicMetres ?? 0), used.Sum(use => use.LogCubicMetres ?? use.RecordCubicMetres ?? 0),
                used.Length, used.Count(use => use.LogCubicMetres is not null), limitRatio);

            double Sum(SandEntry entry) => lines.Where(line => line.Entry == entry && from <= line.At && line.At < to).Sum(line => line.CubicMetres);
        }
    }
}
