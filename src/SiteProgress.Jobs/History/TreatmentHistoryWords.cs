using System.Globalization;
using NodaTime.Text;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.History;

/// <summary>What a record of the treatment of piles says, in a sentence.</summary>
internal static class TreatmentHistoryWords
{
    private const int MostPilesNamed = 6;

    /// <summary>The sentence, the reason or comment, and what it touches; null for a record that is none of treatment.</summary>
    public static (string What, string? Why, HistoryTarget? Touches)? Of(RecordBody body) => body switch
    {
        NonConformanceRaisedBody one => (
            Say($"Non-conformance {one.Number} raised about {Findings(one.Findings)}{(one.DueOn is { } due ? Say($", due on {LocalDatePattern.Iso.Format(due)}") : "")}."),
            one.Reason, Case(one.Number)),
        DispositionProposedBody one => (
            Say($"Non-conformance {one.NonConformance}: proposed to {Words(one.Disposition)}{(one.Additional is { Count: > 0 } more ? Say($" ({string.Join(", ", more.Select(pile => pile.Number))})") : "")}{(one.DesignerReference is { Length: > 0 } designer ? Say($", designer's reference {designer}") : "")}."),
            one.Reason, Case(one.NonConformance)),
        DispositionDecidedBody one => (
            Say($"Non-conformance {one.NonConformance}: the proposal of record {one.Proposal} was {(one.Approved ? "approved" : "sent back")}{(one.Accepted is { Count: > 0 } accepted ? Say($", {Count(accepted.Count, "pile")} accepted with a concession") : "")}."),
            one.Comment, Case(one.NonConformance)),
        CommentMadeBody one => (Say($"Non-conformance {one.NonConformance}: commented."), one.Text, Case(one.NonConformance)),
        DueDateSetBody one => (Say($"Non-conformance {one.NonConformance}: due on {LocalDatePattern.Iso.Format(one.DueOn)} from here on."), one.Reason, Case(one.NonConformance)),
        EvidenceGivenBody one => (Say($"Non-conformance {one.NonConformance}: evidence given, {one.Reference}."), one.Note, Case(one.NonConformance)),
        ClosureDecidedBody one => (Say($"Non-conformance {one.NonConformance}: closure {(one.Verified ? "verified" : "refused")}."), one.Comment, Case(one.NonConformance)),
        LotSubmittedBody one => (Say($"Lot {one.Number} submitted, {Count(one.Piles.Count, "pile")}."), one.Note, Lot(one.Number)),
        LotReturnedBody one => (Say($"Lot {one.Lot} sent back."), one.Reason, Lot(one.Lot)),
        PilesAcceptedBody one => (
            Say($"{Count(one.Piles.Count, "pile")} accepted{(one.Lot is { } lot ? Say($", lot {lot}") : one.Selection is { Length: > 0 } selection ? Say($", selected by {selection}") : Say($": {Piles(one.Piles.Select(pile => pile.Number))}"))}."),
            one.Comment, one.Lot is { } accepted ? Lot(accepted) : one.Piles is [{ } alone] ? new(HistoryPageName.Pile, alone.Number) : null),
        AcceptanceWithdrawnBody one => (Say($"Acceptance withdrawn of {Piles(one.Piles)}."), one.Reason, one.Piles is [{ } pile] ? new(HistoryPageName.Pile, pile) : null),
        HoldPointSetBody one => (
            Say($"Hold point {one.Number} set: {one.Name}{(one.Clause is { Length: > 0 } clause ? Say($", {clause}") : "")}; {(one.Waiting.Count > 0 ? Count(one.Waiting.Count, "pile") : one.Barge is { } barge ? barge : one.Zone is { } zone ? "zone " + zone : "nothing yet")} waits."),
            null, new(HistoryPageName.HoldPoints, "")),
        HoldPointSignedBody one => (
            Say($"Hold point {one.HoldPoint} {(one.AsSurveyor ? "signed by the surveyor" : "signed by the owner's representative")}."), one.Note, new(HistoryPageName.HoldPoints, "")),
        HoldPointWithdrawnBody one => (Say($"Hold point {one.HoldPoint} withdrawn."), one.Reason, new(HistoryPageName.HoldPoints, "")),
        FileAttachedBody one => (
            Say($"File attached to {(one.Pile is { } pile ? "pile " + pile : Say($"non-conformance {one.NonConformance}"))}: {one.FileName}."), one.Note,
            one.Pile is { } of ? new(HistoryPageName.Pile, of) : Case(one.NonConformance ?? 0)),
        DesignChangeProposedBody one => (
            Say($"Design changed after building: proposed to {(one.Answer == DesignChangeAnswer.KeepAsBuilt ? "keep as built" : "hold against the new design")} {Piles(one.Piles.Select(pile => pile.Number))}."),
            one.Reason, one.Piles is [{ } alone] ? new(HistoryPageName.Pile, alone.Number) : null),
        DesignChangeDecidedBody one => (Say($"Design changed after building: the proposal of record {one.Proposal} was {(one.Approved ? "approved" : "sent back")}."), one.Comment, null),
        AttachmentWithdrawnBody one => (Say($"Attached file of record {one.Attachment} withdrawn."), one.Reason, null),
        _ => null,
    };

    private static HistoryTarget Case(int number) => new(HistoryPageName.NonConformance, Say($"{number}"));

    private static HistoryTarget Lot(int number) => new(HistoryPageName.Lot, Say($"{number}"));

    private static string Words(Disposition disposition) => disposition switch
    {
        Disposition.UseAsIs => "use it as is (concession)",
        Disposition.RepairInPlace => "repair it in place",
        Disposition.InstallAgain => "install it again",
        _ => "build an additional pile",
    };

    private static string Piles(IEnumerable<string> numbers)
    {
        string[] all = [.. numbers.Distinct(StringComparer.OrdinalIgnoreCase)];
        return all.Length <= MostPilesNamed ? string.Join(", ", all) : Say($"{string.Join(", ", all.Take(MostPilesNamed))} and {all.Length - MostPilesNamed} more");
    }

    private static string Findings(IReadOnlyList<FindingShown> findings)
    {
        string piles = Piles(findings.Where(finding => finding.Account is null).Select(finding => finding.Pile));
        return string.Join("; ", [.. piles.Length > 0 ? [piles] : Array.Empty<string>(), .. findings.Select(finding => finding.Account).OfType<SandAccountName>().Select(account => "the sand account of " + account.InWords())]);
    }

    private static string Count(int number, string one) => Say($"{number} {one}{(number == 1 ? "" : "s")}");

    private static string Say(FormattableString sentence) => sentence.ToString(CultureInfo.InvariantCulture);
}
