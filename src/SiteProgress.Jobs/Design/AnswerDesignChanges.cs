using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.Treatment;

namespace SiteProgress.Jobs.Design;

/// <summary>What is to become of piles whose design was changed after they were built: one person proposes, another decides.</summary>
public sealed class AnswerDesignChanges(SiteRecorder recorder)
{
    /// <summary>Piles of one proposal at most.</summary>
    public static int MostPiles => 2_000;

    /// <summary>Proposes an answer for some of them.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="piles">Pile numbers.</param>
    /// <param name="answer">What is to become of them.</param>
    /// <param name="reason">Why, and by whose word.</param>
    /// <param name="cancellation">Stops the work; nothing is recorded then.</param>
    [Needs(Right.Propose)]
    public async Task<TreatmentAnswer> ProposeAsync(Permit permit, IReadOnlyList<string> piles, DesignChangeAnswer answer, string reason, CancellationToken cancellation)
    {
        permit.Demand(Right.Propose);
        ArgumentNullException.ThrowIfNull(piles);
        if (!Enum.IsDefined(answer)) return new(null, "Expected one of the two answers: keep as built, or hold against the new design.");
        string[] numbers = [.. piles.Select(pile => pile.Trim()).Distinct(StringComparer.OrdinalIgnoreCase)];
        if (numbers.Length == 0) return new(null, "Choose at least one pile.");
        if (numbers.Length > MostPiles) return new(null, FormattableString.Invariant($"{numbers.Length} piles are chosen; one proposal holds at most {MostPiles}."));
        if (Treating.WhyNot(reason, "The reason") is { } why) return new(null, why);
        return await Treating.RecordAsync(recorder, permit, Right.Propose, site => Propose(site, numbers, answer, reason.Trim()), cancellation);
    }

    /// <summary>Approves a proposal or sends it back.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="proposal">Sequence of the proposal.</param>
    /// <param name="approve">True when it holds from here on.</param>
    /// <param name="comment">What the person says; needed to send back.</param>
    /// <param name="cancellation">Stops the work; nothing is recorded then.</param>
    /// <exception cref="AccessRefusedException">The role may not decide, or the person made the proposal.</exception>
    [Needs(Right.Decide)]
    public async Task<TreatmentAnswer> DecideAsync(Permit permit, long proposal, bool approve, string comment, CancellationToken cancellation)
    {
        permit.Demand(Right.Decide);
        if (Treating.WhyNot(comment, "The comment", needed: !approve) is { } why) return new(null, why);
        return await Treating.RecordAsync(
            recorder,
            permit,
            Right.Decide,
            site =>
            {
                if (site.Treated.DesignProposals.FirstOrDefault(one => one.Record.Sequence == proposal) is not { } found)
                    return Attempt.Refuse(FormattableString.Invariant($"There is no proposal for changed piles in record {proposal}."));
                Treating.DemandOther(permit, [found.Record.By], "You made this proposal yourself.");
                if (found.Decision is { } decision) return Attempt.Refuse(FormattableString.Invariant($"The proposal of record {proposal} was decided already, in record {decision.Sequence}."));
                if (approve && found.Body.Piles.FirstOrDefault(pile => LineOf(site, pile.Number) != pile.Line) is { } other)
                    return Attempt.Refuse($"The design of pile {other.Number} was changed again since this was proposed ('{other.Line}' then). Send it back, and propose anew.");
                return Attempt.Record(null, new DesignChangeDecidedBody(proposal, approve, (comment ?? "").Trim()));
            },
            cancellation);
    }

    private static Attempt Propose(DerivedSite site, string[] numbers, DesignChangeAnswer answer, string reason)
    {
        Dictionary<string, DerivedPile> changed = site.Piles.Where(pile => pile.Design.IsOpen).ToDictionary(pile => pile.Judgement.Pile.Number, StringComparer.OrdinalIgnoreCase);
        List<ChangedPile> shown = [];
        foreach (string number in numbers)
        {
            if (!changed.TryGetValue(number, out DerivedPile? pile)) return Attempt.Refuse($"Pile {number} is no built pile whose changed design waits for a decision.");
            if (answer == DesignChangeAnswer.HoldAgainstNewDesign && pile.Design.Change!.After is null)
                return Attempt.Refuse($"Pile {number} was taken out: there is no new design to hold it against. Keep it as built, or leave it waiting.");
            if (site.Treated.DesignProposals.FirstOrDefault(one => one.Decision is null && one.Body.Piles.Any(each => string.Equals(each.Number, number, StringComparison.OrdinalIgnoreCase) && each.Line == pile.Design.Line)) is { } waits)
                return Attempt.Refuse(FormattableString.Invariant($"A proposal for pile {number} waits already, in record {waits.Record.Sequence}."));
            shown.Add(new ChangedPile(pile.Judgement.Pile.Number, pile.Design.Line!));
        }

        return Attempt.Record(null, new DesignChangeProposedBody(shown, answer, reason));
    }

    private static string? LineOf(DerivedSite site, string number)
        => site.Piles.FirstOrDefault(pile => string.Equals(pile.Judgement.Pile.Number, number, StringComparison.OrdinalIgnoreCase))?.Design.Line;
}
