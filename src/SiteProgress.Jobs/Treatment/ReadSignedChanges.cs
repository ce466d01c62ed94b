using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Treatment;

/// <summary>
/// What differs between what was signed and what stands now, line by line. A signature keeps a hash, not the lines; they are made
/// again from the records as they were, and the hash says whether what is made is what was signed.
/// </summary>
public sealed class ReadSignedChanges(SiteHistories histories)
{
    /// <summary>Most piles of a lot that are told line by line.</summary>
    public static readonly int MostPiles = 50;

    /// <summary>A pile whose acceptance no longer covers what stands.</summary>
    /// <param name="Number">Pile number.</param>
    /// <param name="SignedIn">The record that accepted it.</param>
    /// <param name="IsWhatWasSigned">
    /// True when the sheet made again has the hash that was signed. False when the rules that make sheets changed since, so
    /// that the lines are those of today's rules on the records of then.
    /// </param>
    /// <param name="Changes">The lines that differ.</param>
    public sealed record OfPile(string Number, long SignedIn, bool IsWhatWasSigned, IReadOnlyList<SheetChange> Changes);

    /// <summary>A lot since its decision.</summary>
    /// <param name="SignedIn">The record that accepted it.</param>
    /// <param name="IsWhatWasSigned">As for a pile, for the summary of the lot.</param>
    /// <param name="Rules">Lot rules that differ.</param>
    /// <param name="Reopened">How many of the piles it accepted are no longer as signed.</param>
    /// <param name="Piles">The first of them, each with its lines.</param>
    public sealed record OfLot(long SignedIn, bool IsWhatWasSigned, IReadOnlyList<SheetChange> Rules, int Reopened, IReadOnlyList<OfPile> Piles);

    /// <summary>Reads the changes of a pile.</summary>
    /// <returns>Null where the pile has no acceptance, or one that holds.</returns>
    [Needs(Right.See)]
    public async Task<OfPile?> PileAsync(Permit permit, string number, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        DerivedSite now = await histories.ReadDerivedAsync(permit.Site, cancellation);
        if (now.Treated.LastAcceptanceOf(number) is not { } acceptance || now.Treated.Find(number) is not { Reopened: not null }) return null;
        DerivedSite then = await histories.ReadDerivedAfterAsync(permit.Site, acceptance.Sequence - 1, cancellation);
        return Compare(number, now.Design?.NumberAt(number, acceptance.Sequence) ?? number, acceptance.Sequence, acceptance.Sheet, then.Treated, now.Treated);
    }

    /// <summary>Reads the changes of a lot.</summary>
    /// <returns>Null where there is no such lot, or it was not accepted.</returns>
    [Needs(Right.See)]
    public async Task<OfLot?> LotAsync(Permit permit, int number, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        DerivedSite now = await histories.ReadDerivedAsync(permit.Site, cancellation);
        if (now.Treated.Lots.FirstOrDefault(one => one.Number == number) is not { Stage: LotStage.Accepted, Decision.Sequence: var sequence } lot) return null;
        PilesAcceptedBody signed = (PilesAcceptedBody)now.History.Treatments.Single(record => record.Sequence == sequence).Body;
        DerivedSite then = await histories.ReadDerivedAfterAsync(permit.Site, sequence - 1, cancellation);
        LotSummary was = SelectionSheet.Of(then, lot);
        // A pile that got another number since is found by the one it has now.
        string Now(SignedPile pile) => now.Design?.NumberNow(pile.Number, sequence) ?? pile.Number;
        SignedPile[] changed = [.. signed.Piles.Where(pile => now.Treated.SheetAt(Now(pile), sequence)?.Hash != pile.Sheet)];
        return new OfLot(
            sequence,
            string.Equals(was.Sheet.Hash, signed.Seen, StringComparison.OrdinalIgnoreCase),
            SheetDifference.Between(Rules(was), Rules(SelectionSheet.Of(now, lot))),
            changed.Length,
            [.. changed.Take(MostPiles).Select(pile => Compare(Now(pile), pile.Number, sequence, pile.Sheet, then.Treated, now.Treated))]);
    }

    private static OfPile Compare(string number, string numberThen, long sequence, string hash, TreatedSite then, TreatedSite now)
    {
        Sheet signed = then.SheetOf(numberThen) ?? new Sheet("", []);
        IReadOnlyList<SheetChange> changes = now.SheetAt(number, sequence) is { } sheet
            ? SheetDifference.Between(signed, sheet)
            : [new SheetChange("stands on record", string.Join(", ", signed.Lines.Where(line => line.Label == "stands on record").Select(line => line.Value)), "nothing stands for it")];
        return new OfPile(number, sequence, signed.Hash == hash, changes);
    }

    private static Sheet Rules(LotSummary summary) => new("", [.. summary.Sheet.Lines.TakeLast(summary.Rules.Count)]);
}
