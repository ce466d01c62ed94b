using System.Text.RegularExpressions;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Treatment;

/// <summary>Proposes what is to be done about a non-conformance. A later proposal takes the place of the one before.</summary>
public sealed class ProposeDisposition(SiteRecorder recorder)
{
    private static readonly double MostMetresAway = 50;

    /// <summary>What is proposed.</summary>
    /// <param name="Disposition">What is to be done.</param>
    /// <param name="Reason">Why.</param>
    /// <param name="DesignerReference">The designer's reference; a concession needs one.</param>
    /// <param name="Additional">Piles to be built in the stead of those with findings.</param>
    public sealed record Proposal(Disposition Disposition, string Reason, string? DesignerReference, IReadOnlyList<AdditionalPile>? Additional);

    /// <summary>Proposes.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="number">Number of the non-conformance.</param>
    /// <param name="proposal">What is proposed.</param>
    /// <param name="seen">Hash of the sheet that was shown.</param>
    /// <param name="cancellation">Stops the work.</param>
    [Needs(Right.Propose)]
    public async Task<TreatmentAnswer> RunAsync(Permit permit, int number, Proposal proposal, string seen, CancellationToken cancellation)
    {
        permit.Demand(Right.Propose);
        if (!Enum.IsDefined(proposal.Disposition)) return new(null, "Choose one of the four dispositions.");
        if (Treating.WhyNot(proposal.Reason, "The reason") is { } why) return new(null, why);
        if (Treating.WhyNot(proposal.DesignerReference, "The designer's reference", proposal.Disposition == Disposition.UseAsIs) is { } noReference) return new(null, noReference);
        return await Treating.RecordAsync(
            recorder,
            permit,
            Right.Propose,
            site =>
            {
                if (site.Find(number) is not { } one) return Attempt.Refuse($"There is no non-conformance {number} on this site.");
                if (!one.IsOpen()) return Attempt.Refuse($"Non-conformance {number} is closed.");
                if (!one.IsShown(seen)) return Attempt.Stale(one.Steps[^1]);
                if (WhyNot(site, one, proposal) is { } refusal) return Attempt.Refuse(refusal);
                return Attempt.Record(number, new DispositionProposedBody(
                    number,
                    proposal.Disposition,
                    proposal.Reason.Trim(),
                    string.IsNullOrWhiteSpace(proposal.DesignerReference) ? null : proposal.DesignerReference.Trim(),
                    proposal.Disposition == Disposition.AdditionalPile ? proposal.Additional : null,
                    one.Shown()));
            },
            cancellation);
    }

    private static string? WhyNot(DerivedSite site, NonConformance one, Proposal proposal)
    {
        if (one.Piles().Count == 0 && proposal.Disposition is Disposition.InstallAgain or Disposition.AdditionalPile)
            return "This non-conformance speaks of sand accounts and of no pile: use it as is, with the reference that explains the difference, or repair it by putting the account right.";
        if (proposal.Disposition != Disposition.AdditionalPile) return null;
        IReadOnlyList<AdditionalPile> additional = proposal.Additional ?? [];
        if (additional.Count == 0) return "An additional pile needs a number and a design position.";
        HashSet<string> numbers = new(StringComparer.OrdinalIgnoreCase);
        string characters = site.History.Settings!.PileNumberCharacters;
        foreach (AdditionalPile pile in additional)
        {
            if (!Regex.IsMatch(pile.Number, $"^[{characters}]{{1,40}}$", RegexOptions.CultureInvariant)) return $"'{pile.Number}' is no pile number of this site; expected 1 to 40 of the characters {characters}.";
            if (!numbers.Add(pile.Number) || site.Treated.Judged(pile.Number) is not null) return $"There is a pile {pile.Number} already; an additional pile needs a number of its own.";
            if (!one.Piles().Contains(pile.Replaces, StringComparer.OrdinalIgnoreCase)) return $"Pile {pile.Replaces} is not in this non-conformance; name the pile that {pile.Number} replaces.";
            if (site.Treated.Judged(pile.Replaces) is not { } original) return $"Pile {pile.Replaces} is not in the design.";
            double away = Math.Sqrt(Math.Pow(pile.XMetres - original.Pile.Position.XMetres, 2) + Math.Pow(pile.YMetres - original.Pile.Position.YMetres, 2));
            if (!(away <= MostMetresAway)) return FormattableString.Invariant($"Pile {pile.Number} would stand {away:0.0} m from {pile.Replaces}; expected a site-grid position within {MostMetresAway:0} m of it.");
        }

        return null;
    }
}
