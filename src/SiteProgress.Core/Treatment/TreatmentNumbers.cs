using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Treatment;

/// <summary>
/// Records of treatment as they read once piles were renumbered: a decision goes with the pile, not with the number it had. The
/// record itself stays as it was written.
/// </summary>
internal static class TreatmentNumbers
{
    /// <summary>The records with today's numbers.</summary>
    /// <param name="records">Records of treatment.</param>
    /// <param name="now">The number now of a pile by its number when the site's sequence stood at a record.</param>
    public static IReadOnlyList<TreatmentRecord> Translate(IReadOnlyList<TreatmentRecord> records, Func<string, long, string> now)
        => [.. records.Select(record => record with { Body = Translate(record.Body, number => now(number, record.Sequence)) })];

    private static TreatmentBody Translate(TreatmentBody body, Func<string, string> now) => body switch
    {
        NonConformanceRaisedBody one => one with { Findings = Findings(one.Findings, now) },
        DispositionProposedBody one => one with
        {
            Findings = Findings(one.Findings, now),
            Additional = one.Additional is { } piles ? [.. piles.Select(pile => pile with { Replaces = now(pile.Replaces) })] : null,
        },
        DispositionDecidedBody one => one with { Findings = Findings(one.Findings, now), Accepted = one.Accepted is { } piles ? Signed(piles, now) : null },
        ClosureDecidedBody one => one with { Findings = Findings(one.Findings, now) },
        LotSubmittedBody one => one with { Piles = [.. one.Piles.Select(now)] },
        PilesAcceptedBody one => one with { Piles = Signed(one.Piles, now) },
        AcceptanceWithdrawnBody one => one with { Piles = [.. one.Piles.Select(now)] },
        HoldPointSetBody one => one with { Shown = [.. one.Shown.Select(now)], Waiting = [.. one.Waiting.Select(now)] },
        DesignChangeProposedBody one => one with { Piles = [.. one.Piles.Select(pile => pile with { Number = now(pile.Number) })] },
        FileAttachedBody { Pile: { } pile } one => one with { Pile = now(pile) },
        _ => body,
    };

    private static IReadOnlyList<FindingShown> Findings(IReadOnlyList<FindingShown> findings, Func<string, string> now)
        => [.. findings.Select(finding => finding.Account is null ? finding with { Pile = now(finding.Pile) } : finding)];

    private static IReadOnlyList<SignedPile> Signed(IReadOnlyList<SignedPile> piles, Func<string, string> now)
        => [.. piles.Select(pile => pile with { Number = now(pile.Number) })];
}
