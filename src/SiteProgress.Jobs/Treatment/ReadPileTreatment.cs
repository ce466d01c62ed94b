using Npgsql;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Treatment;

/// <summary>What was decided about one pile and what can be decided, with its sheet.</summary>
public sealed class ReadPileTreatment(SiteHistories histories, NpgsqlDataSource store, TimeProvider clock)
{
    /// <summary>A pile as it is put before who decides.</summary>
    /// <param name="Number">Pile number.</param>
    /// <param name="Treatment">What was decided.</param>
    /// <param name="Readiness">Whether it can be accepted.</param>
    /// <param name="NonConformances">Those it is in.</param>
    /// <param name="FreeFindings">Its findings that are in none.</param>
    /// <param name="Lot">The lot it waits or was accepted in.</param>
    /// <param name="HeldBy">The hold point it waits for.</param>
    /// <param name="Sheet">Its sheet; null where nothing stands.</param>
    /// <param name="Hash">Hash of the sheet; it is sent back with the decision.</param>
    /// <param name="Names">Names of those who recorded.</param>
    /// <param name="NextWaiting">The next pile that waits for a decision of this person.</param>
    /// <param name="StillWaiting">How many piles wait for a decision of this person.</param>
    /// <param name="SiteName">Name of the site.</param>
    /// <param name="Invented">True for a scenario made up for demonstration.</param>
    /// <param name="TimeZone">Time zone of the site.</param>
    /// <param name="RecordSequence">The last record this follows from.</param>
    /// <param name="ChainHead">Hash of that record: the head of the site's chain.</param>
    public sealed record View(
        string Number,
        PileTreatment Treatment,
        PileReadiness Readiness,
        IReadOnlyList<NonConformance> NonConformances,
        IReadOnlyList<FindingShown> FreeFindings,
        Lot? Lot,
        HoldPoint? HeldBy,
        Sheet? Sheet,
        string? Hash,
        IReadOnlyDictionary<string, string> Names,
        string? NextWaiting,
        int StillWaiting,
        string SiteName,
        bool Invented,
        string TimeZone,
        long RecordSequence,
        string ChainHead);

    /// <summary>Reads it.</summary>
    /// <returns>Null where the design holds no such pile.</returns>
    [Needs(Right.See)]
    public async Task<View?> RunAsync(Permit permit, string number, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        SiteAtHand hand = await SiteAtHand.ReadAsync(permit, histories, store, clock, cancellation);
        if (hand.Treated.Find(number) is not { } treatment || hand.Treated.Judged(number) is not { } judged) return null;
        IReadOnlyList<NonConformance> all = hand.Treated.NonConformancesOf(number);
        Lot? lot = treatment.Lot is { } of ? hand.Treated.Lots[of - 1] : null;
        Sheet? sheet = hand.Treated.SheetOf(number);
        IReadOnlyList<string> waiting = PilesWaiting.For(permit, hand.Treated);
        return new View(
            judged.Pile.Number,
            treatment,
            hand.Treated.ReadinessOf(number),
            all,
            [.. hand.Treated.FreeFindings(number)],
            lot,
            treatment.HeldBy is { } held ? hand.Treated.HoldPoints[held - 1] : null,
            sheet,
            sheet?.Hash,
            await hand.NamesAsync([.. all.SelectMany(one => one.Steps.Select(step => step.By)), lot?.Submitted.By, lot?.Decision?.By, treatment.Acceptance?.By], cancellation),
            Next(waiting, judged.Pile.Number),
            waiting.Count,
            hand.Site.History.Settings!.Name,
            hand.Site.History.Settings!.Invented,
            hand.TimeZone,
            hand.Site.History.Sequence,
            await ChainHeadAsync(permit.Site, hand.Site.History.Sequence, cancellation));
    }

    private async Task<string> ChainHeadAsync(int site, long sequence, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = store.CreateCommand("select hash from record.site_record where site = $1 and sequence = $2");
        command.Parameters.AddWithValue(site);
        command.Parameters.AddWithValue(sequence);
        return await command.ExecuteScalarAsync(cancellation) is byte[] hash ? Convert.ToHexStringLower(hash) : "";
    }

    private static string? Next(IReadOnlyList<string> waiting, string number)
        => waiting.FirstOrDefault(one => string.CompareOrdinal(one, number) > 0) ?? waiting.FirstOrDefault(one => one != number);
}

/// <summary>The piles that wait for a decision of a person: those in non-conformances and lots that they may decide.</summary>
internal static class PilesWaiting
{
    public static IReadOnlyList<string> For(Permit permit, TreatedSite site)
    {
        if (!permit.Allows(Right.Decide)) return [];
        string me = SiteRecorder.AccountName(permit.Account);
        IEnumerable<string> inTreatment = site.NonConformances
            .Where(one => one.Stage is Stage.Proposed or Stage.ToVerify && one.Proposal?.By != me)
            .SelectMany(one => one.Piles());
        IEnumerable<string> inLots = site.Lots
            .Where(lot => lot.Stage == LotStage.Submitted && lot.Submitted.By != me)
            .SelectMany(lot => lot.Piles)
            .Where(pile => site.ReadinessOf(pile).Readiness is Readiness.Ready or Readiness.OneByOne);
        return [.. inTreatment.Concat(inLots).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];
    }
}
