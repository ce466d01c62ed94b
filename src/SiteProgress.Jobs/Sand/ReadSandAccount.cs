using NodaTime;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Sand;

/// <summary>Sand by deliveries and stocks against sand by the records, and pile by pile the log against record and charges.</summary>
public sealed class ReadSandAccount(SiteHistories histories)
{
    /// <summary>Reads it.</summary>
    /// <returns>The account; null before the site has settings.</returns>
    [Needs(Right.See)]
    public async Task<SandAccountView?> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        DerivedSite site = await histories.ReadDerivedAsync(permit.Site, cancellation);
        if (site.History.Settings is not { } settings) return null;
        WorkingDays days = new(settings);
        return new SandAccountView(
            site.History.Sequence, settings.TimeZone, settings.SandAgreement?.PileRatio, settings.SandAgreement?.WeekRatio,
            [.. site.SandPeriods.Select(period => new SandPeriodLine(period, days.At(period.From).Day, days.At(period.To).Day.PlusDays(-1), site.Treated.NonConformanceOf(period.Name)?.Number))],
            [.. site.Piles.SelectMany(pile => pile.Judgement.Logs.Where(log => log.Figures is { Why: null }).Select(log => Line(pile, log)))
                .OrderByDescending(line => line.OverLimit).ThenByDescending(line => line.LargestRatio).ThenBy(line => line.Pile, StringComparer.Ordinal)],
            SandOfSource.Of(settings, site.Piles.Select(pile => pile.Judgement), site.History.Deliveries.Select(row => row.Value)));
    }

    private static SandOfLog Line(DerivedPile pile, PartLog log)
    {
        LogFigures figures = log.Figures!;
        Installation recorded = log.Part.Installation.Recorded;
        CheckResult? check = pile.Judgement.Checks.FirstOrDefault(one => one.Check == CheckName.SandAgreement);
        return new SandOfLog(
            pile.Judgement.Pile.Number, recorded.Barge, recorded.Casing, pile.Completed?.Day, recorded.SandInCasing, figures.SandLeftCubicMetres, figures.ChargedCubicMetres,
            figures.Compared?.RecordedCubicMetres, figures.Compared?.SeenCubicMetres, check?.Verdict == Verdict.NotMet);
    }
}

/// <summary>The sand account of a site.</summary>
/// <param name="RecordSequence">The last record it follows from.</param>
/// <param name="TimeZone">Time zone of the site.</param>
/// <param name="PileLimitRatio">The site's limit of one pile; null where it sets none.</param>
/// <param name="WeekLimitRatio">The site's limit from stock to stock; null where it sets none.</param>
/// <param name="Periods">Periods between stocks, in order of time.</param>
/// <param name="Piles">Piles with a log, those over the limit first.</param>
/// <param name="Sources">The sand of each source over the whole work.</param>
public sealed record SandAccountView(
    long RecordSequence, string TimeZone, double? PileLimitRatio, double? WeekLimitRatio, IReadOnlyList<SandPeriodLine> Periods, IReadOnlyList<SandOfLog> Piles, IReadOnlyList<SandOfSource> Sources);

/// <summary>One period with its working days.</summary>
/// <param name="Account">The account.</param>
/// <param name="FirstDay">First working day.</param>
/// <param name="LastDay">Last working day.</param>
/// <param name="NonConformance">The non-conformance it was gathered into; null without one.</param>
public sealed record SandPeriodLine(SandPeriod Account, LocalDate FirstDay, LocalDate LastDay, int? NonConformance);

/// <summary>The sand of one pile by its log, loose cubic metres.</summary>
/// <param name="Pile">Pile number.</param>
/// <param name="Barge">Barge.</param>
/// <param name="Casing">Casing.</param>
/// <param name="WorkingDay">Working day of completion.</param>
/// <param name="RecordCubicMetres">Sand on the record.</param>
/// <param name="LogCubicMetres">Sand that left the casing by the log.</param>
/// <param name="ChargedCubicMetres">Charges in the log.</param>
/// <param name="ComparedCubicMetres">Charges the gauge could see whole.</param>
/// <param name="SeenCubicMetres">The same as the gauge saw them.</param>
/// <param name="OverLimit">True for a finding.</param>
public sealed record SandOfLog(
    string Pile, string Barge, int? Casing, LocalDate? WorkingDay, double? RecordCubicMetres, double? LogCubicMetres, double? ChargedCubicMetres,
    double? ComparedCubicMetres, double? SeenCubicMetres, bool OverLimit)
{
    /// <summary>Log against record; null where one is not known.</summary>
    public double? AgainstRecordRatio => RecordCubicMetres > 0 && LogCubicMetres is { } log ? (log / RecordCubicMetres.Value) - 1 : null;

    /// <summary>What the gauge saw of the charges against what was recorded; null where there is none to compare.</summary>
    public double? ChargesRatio => ComparedCubicMetres > 0 && SeenCubicMetres is { } seen ? (seen / ComparedCubicMetres.Value) - 1 : null;

    /// <summary>The larger of both, without its sign.</summary>
    public double LargestRatio => Math.Max(Math.Abs(AgainstRecordRatio ?? 0), Math.Abs(ChargesRatio ?? 0));
}
