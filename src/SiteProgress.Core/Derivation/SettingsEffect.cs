using SiteProgress.Core.Checks;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Derivation;

/// <summary>What other settings change, pile by pile, by the rules that putting them in force will use.</summary>
/// <param name="PlannedPiles">How many piles are planned.</param>
/// <param name="Piles">The piles whose state or verdicts change, by number.</param>
public sealed record SettingsEffect(int PlannedPiles, IReadOnlyList<PileChange> Piles)
{
    /// <summary>Works the effect out.</summary>
    /// <param name="now">The site as it stands.</param>
    /// <param name="settings">The settings as they would be.</param>
    public static SettingsEffect Of(DerivedSite now, SiteSettings settings)
    {
        ArgumentNullException.ThrowIfNull(now);
        Dictionary<string, DerivedPile> then = SiteDerivation.Derive(now.History.AsIfSettings(settings)).Piles.ToDictionary(pile => pile.Judgement.Pile.Number, StringComparer.Ordinal);
        return new SettingsEffect(
            now.Piles.Count,
            [.. now.Piles.Select(pile => Compare(pile, then.GetValueOrDefault(pile.Judgement.Pile.Number))).OfType<PileChange>().OrderBy(pile => pile.Number, StringComparer.Ordinal)]);
    }

    private static PileChange? Compare(DerivedPile now, DerivedPile? then)
    {
        CheckName[] verdicts = then is null ? [] :
            [.. now.Judgement.Checks.Where(check => then.Judgement.Checks.FirstOrDefault(other => other.Check == check.Check)?.Verdict != check.Verdict).Select(check => check.Check)];
        return verdicts.Length == 0 && then?.Judgement.State == now.Judgement.State
            ? null
            : new PileChange(now.Judgement.Pile.Number, now.Judgement.Pile.Zone, now.Judgement.State, then?.Judgement.State, verdicts);
    }
}

/// <summary>A pile whose state or verdicts change.</summary>
/// <param name="Number">Its number.</param>
/// <param name="Zone">Its zone.</param>
/// <param name="StateNow">State now.</param>
/// <param name="StateThen">State after; null where no zone of the settings takes the pile any more.</param>
/// <param name="Verdicts">Checks whose verdict changes.</param>
public sealed record PileChange(string Number, string Zone, PileState StateNow, PileState? StateThen, IReadOnlyList<CheckName> Verdicts);
