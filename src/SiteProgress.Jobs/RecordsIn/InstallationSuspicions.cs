using System.Globalization;
using NodaTime;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>
/// What looks wrong with the installations of a batch taken together: an offset they share, levels counted the other way or in
/// feet, times of another zone, pile numbers changed by a spreadsheet. Each comes with its evidence; a person decides.
/// </summary>
/// <remarks>The thresholds are common practice without a source: each is far beyond what noise of a right file reaches.</remarks>
internal sealed class InstallationSuspicions
{
    private const int LeastPiles = 10;
    private const int LeastSetUps = 5;
    private const double LeastOffsetMetres = 0.10;
    private const double LeastLevelShiftMetres = 1.0;
    private const double FeetInMetre = 1 / 0.3048;

    private readonly (Installation Built, SiteCoordinate? Position, PlannedPile? Named)[] _rows;
    private readonly DerivedSite _site;
    private readonly DerivedInstallation[] _batch;

    private InstallationSuspicions(DerivedInstallation[] batch, DerivedSite site)
    {
        (_batch, _site) = (batch, site);
        Dictionary<string, PlannedPile> design = new(StringComparer.OrdinalIgnoreCase);
        foreach (DerivedPile pile in site.Piles) design[pile.Judgement.Pile.Number] = pile.Judgement.Pile;
        _rows = Array.ConvertAll(batch, one => (one.Located.Recorded, one.Located.Position, design.GetValueOrDefault(one.Located.Recorded.PileNumber.Trim())));
    }

    /// <summary>The suspicions.</summary>
    /// <param name="batch">Installations of the batch.</param>
    /// <param name="site">The site as it would be with the batch.</param>
    /// <param name="placed">True where the positions lie on the site, so that an offset can be told from another frame.</param>
    /// <param name="timesAreAssumed">True where the file's times name no offset.</param>
    public static IEnumerable<string> Of(DerivedInstallation[] batch, DerivedSite site, bool placed, bool timesAreAssumed)
    {
        if (batch.Length == 0) return [];
        InstallationSuspicions judge = new(batch, site);
        IEnumerable<string?> found = [placed ? judge.SharedOffset() : null, judge.Levels(), timesAreAssumed ? judge.TimesInUtc() : null];
        return found.OfType<string>().Concat(PileNumberSuspicion.Judge(
            batch.Where(one => one.Located.Recorded.Outcome != Outcome.Trial).Select(one => one.Located.Recorded.PileNumber),
            [.. site.Piles.Select(pile => pile.Judgement.Pile.Number)]).Select(one => one.Text));
    }

    /// <summary>
    /// Piles that all lie off the piles they name in the same way. The set-up is the unit: casings of one set-up share its error.
    /// </summary>
    private string? SharedOffset()
    {
        (string SetUp, double X, double Y)[] offsets = _rows
            .Where(row => row is { Position: not null, Named: not null, Built.Outcome: not (Outcome.Trial or Outcome.OffsetByInstruction) })
            .Select((row, index) => (row.Built.SetUp ?? $"#{index}", row.Position!.Value.XMetres - row.Named!.Position.XMetres, row.Position.Value.YMetres - row.Named.Position.YMetres))
            .ToArray();
        (double X, double Y)[] setUps = offsets.GroupBy(one => one.SetUp).Select(group => (Median(group.Select(one => one.X)), Median(group.Select(one => one.Y)))).ToArray();
        if (offsets.Length < LeastPiles || setUps.Length < LeastSetUps) return null;
        double x = Median(setUps.Select(one => one.X)), y = Median(setUps.Select(one => one.Y));
        double spread = Math.Max(Spread(setUps.Select(one => one.X), x), Spread(setUps.Select(one => one.Y), y));
        double shift = Math.Sqrt((x * x) + (y * y));
        // 1.2533 is the standard error of a median in units of that of a mean, for normal noise.
        double error = 1.2533 * spread / Math.Sqrt(setUps.Length);
        if (shift < LeastOffsetMetres || shift < 5 * error || shift < 2 * spread) return null;
        GridAxes axes = _site.History.Settings!.GridAxes;
        return Say($"The piles of this file share an offset: half of them lie {shift:0.00} m or more from the piles they name in one direction ({axes.First} {x:+0.00;−0.00} m, {axes.Second} {y:+0.00;−0.00} m; {offsets.Length} piles in {setUps.Length} set-ups, spread between set-ups {spread:0.00} m). An offset of antenna or casing, a heading, or another grid would do this; scatter would not.");
    }

    private string? Levels()
    {
        (double Built, double Design)[] tips = _rows
            .Where(row => row is { Built.TipLevelMetres: not null, Named.TipLevelMetres: not null, Built.Outcome: Outcome.Complete })
            .Select(row => (row.Built.TipLevelMetres!.Value, row.Named!.TipLevelMetres!.Value)).ToArray();
        if (tips.Length < LeastPiles) return null;
        double built = Median(tips.Select(tip => tip.Built)), design = Median(tips.Select(tip => tip.Design));
        double shift = Median(tips.Select(tip => tip.Built - tip.Design)), spread = Spread(tips.Select(tip => tip.Built - tip.Design), shift);
        if (Math.Abs(design) > 1 && Math.Abs(built + design) < 0.2 * Math.Abs(design))
            return Say($"Tip levels look counted the other way: half of the {tips.Length} are {built:0.00;−0.00} m or beyond, where the design has {design:0.00;−0.00} m.");
        if (Math.Abs(design) > 1 && Math.Abs((built / design / FeetInMetre) - 1) < 0.05)
            return Say($"Tip levels look like feet: half of the {tips.Length} are {built:0.00;−0.00} or beyond, where the design has {design:0.00;−0.00} m, which is {design * FeetInMetre:0.00;−0.00} ft.");
        return Math.Abs(shift) >= LeastLevelShiftMetres && Math.Abs(shift) > 3 * spread
            ? Say($"Tip levels lie alike {Math.Abs(shift):0.00} m {(shift > 0 ? "above" : "below")} the design ({tips.Length} piles, spread {spread:0.00} m): another datum, or levels without the tide?")
            : null;
    }

    /// <summary>Times that fit the work of the same casings and barges when they are UTC, and do not when they are site time.</summary>
    private string? TimesInUtc()
    {
        DateTimeZone zone = DateTimeZoneProviders.Tzdb[_site.History.Settings!.TimeZone];
        DerivedInstallation[] before = _site.Installations.Where(one => one.Located.Batch != _batch[0].Located.Batch).ToArray();
        if (_batch.FirstOrDefault(one => one.Located.Recorded.End is not null)?.Located.Recorded.End is not { } first || zone.GetUtcOffset(first) == Offset.Zero) return null;
        CasingHours hours = new(before);
        int asRead = _batch.Count(one => hours.IsBusy(one.Located.Recorded, Duration.Zero));
        int asUtc = _batch.Count(one => hours.IsBusy(one.Located.Recorded, Shift(one, zone)));
        if (asRead >= 3 && 20 * asRead >= _batch.Length && 5 * asUtc <= asRead)
            return Say($"Times look like UTC, not site time: as read, {asRead} of {_batch.Length} piles were built while the same casing was at work on another one; taken as UTC, {asUtc}.");
        int quiet = _batch.Count(one => hours.IsQuiet(one.Located.Recorded, Duration.Zero, zone));
        int quietAsUtc = _batch.Count(one => hours.IsQuiet(one.Located.Recorded, Shift(one, zone), zone));
        return quiet >= 3 && 10 * quiet >= _batch.Length && 5 * quietAsUtc <= quiet
            ? Say($"Times look like UTC, not site time: as read, {quiet} of {_batch.Length} piles were finished at hours at which the same barge has never worked; taken as UTC, {quietAsUtc}.")
            : null;
    }

    /// <summary>What a time gains when the clock that was read as site time is read as UTC.</summary>
    private static Duration Shift(DerivedInstallation one, DateTimeZone zone)
        => one.Located.Recorded.End is { } end ? Duration.FromSeconds(zone.GetUtcOffset(end).Seconds) : Duration.Zero;

    private static double Median(IEnumerable<double> values)
    {
        double[] sorted = values.Order().ToArray();
        return sorted.Length % 2 == 1 ? sorted[sorted.Length / 2] : (sorted[(sorted.Length / 2) - 1] + sorted[sorted.Length / 2]) / 2;
    }

    /// <summary>The median distance from the middle, times 1.4826: the standard deviation of normal noise, unmoved by a few mistakes.</summary>
    private static double Spread(IEnumerable<double> values, double middle) => 1.4826 * Median(values.Select(value => Math.Abs(value - middle)));

    private static string Say(FormattableString sentence) => sentence.ToString(CultureInfo.InvariantCulture);
}
