using SiteProgress.Core.Checks;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Derivation;

/// <summary>
/// What adopting an adjustment changes, pile by pile, by the rules that adopting it will use; and, as a question apart, what the
/// records made so far would say had they been put on the site grid by it.
/// </summary>
/// <param name="Piles">One entry a planned pile in force, by number.</param>
public sealed record AdjustmentEffect(IReadOnlyList<PileEffect> Piles)
{
    /// <summary>Piles whose state or verdicts adopting changes.</summary>
    public int ChangedByAdopting => Piles.Count(pile => pile.ChangesByAdopting);

    /// <summary>Piles whose state or verdicts would be others, had their records been put on the site grid by the new adjustment.</summary>
    public int ChangedIfPlacedAnew => Piles.Count(pile => pile.ChangesIfPlacedAnew);

    /// <summary>Works the effect out.</summary>
    /// <param name="history">The records so far; an adjustment is in force.</param>
    /// <param name="proposed">The adjustment, with the revision it would carry.</param>
    /// <param name="with">The history with the adjustment adopted.</param>
    public static AdjustmentEffect Of(SiteHistory history, AdjustmentBody proposed, SiteHistory with)
    {
        ArgumentNullException.ThrowIfNull(history);
        ArgumentNullException.ThrowIfNull(proposed);
        ArgumentNullException.ThrowIfNull(with);
        DerivedSite now = SiteDerivation.Derive(history), then = SiteDerivation.Derive(with);
        Dictionary<string, DerivedPile> adopted = then.Piles.ToDictionary(pile => pile.Judgement.Pile.Number, StringComparer.Ordinal);
        Dictionary<string, DerivedPile> anew = SiteDerivation.Derive(with.AsIfPlacedBy(proposed.Adjustment.Revision)).Piles
            .ToDictionary(pile => pile.Judgement.Pile.Number, StringComparer.Ordinal);
        Func<ProjectedCoordinate, ProjectedCoordinate?> carry = SiteFrames.Carry(now.Frames!.Current.Crs, then.Frames!.Current.Crs);
        // A pile taken out of the design is there only while something stands for it, which another adjustment may change.
        return new([.. now.Piles.Where(pile => adopted.ContainsKey(pile.Judgement.Pile.Number) && anew.ContainsKey(pile.Judgement.Pile.Number))
            .Select(pile => Compare(pile, adopted[pile.Judgement.Pile.Number], anew[pile.Judgement.Pile.Number], carry))]);
    }

    private static PileEffect Compare(DerivedPile now, DerivedPile then, DerivedPile anew, Func<ProjectedCoordinate, ProjectedCoordinate?> carry)
    {
        ProjectedCoordinate? before = carry(now.Projected);
        return new(
            now.Judgement.Pile.Number, now.Judgement.Pile.Zone, now.Projected, then.Projected,
            before is { } old ? then.Projected.EastingMetres - old.EastingMetres : null,
            before is { } at ? then.Projected.NorthingMetres - at.NorthingMetres : null,
            now.Judgement.State, then.Judgement.State, anew.Judgement.State,
            now.Judgement.Position?.Deviation.RadialMetres, anew.Judgement.Position?.Deviation.RadialMetres,
            Differ(now.Judgement, then.Judgement), Differ(now.Judgement, anew.Judgement));
    }

    private static bool Differ(PileJudgement one, PileJudgement other) => one.State != other.State
        || !one.Checks.Select(check => (check.Check, check.Verdict)).SequenceEqual(other.Checks.Select(check => (check.Check, check.Verdict)));
}

/// <summary>What a new adjustment means for one planned pile.</summary>
/// <param name="Number">Number of the pile.</param>
/// <param name="Zone">Its zone.</param>
/// <param name="DesignNow">Design position in the projected CRS in force now.</param>
/// <param name="DesignThen">Design position in the projected CRS of the new adjustment.</param>
/// <param name="ShiftEastMetres">How far the design position moves east on the ground; null between different datums.</param>
/// <param name="ShiftNorthMetres">How far it moves north.</param>
/// <param name="StateNow">State now.</param>
/// <param name="StateThen">State after adopting.</param>
/// <param name="StatePlacedAnew">State had its records been put on the site grid by the new adjustment.</param>
/// <param name="RadialNowMetres">Radial deviation as judged now; null where no position is judged.</param>
/// <param name="RadialPlacedAnewMetres">Radial deviation had its records been put on the site grid by the new adjustment.</param>
/// <param name="ChangesByAdopting">Whether adopting changes its state or a verdict.</param>
/// <param name="ChangesIfPlacedAnew">Whether state or a verdict would be another, had its records been placed anew.</param>
public sealed record PileEffect(
    string Number, string Zone, ProjectedCoordinate DesignNow, ProjectedCoordinate DesignThen, double? ShiftEastMetres, double? ShiftNorthMetres,
    PileState StateNow, PileState StateThen, PileState StatePlacedAnew, double? RadialNowMetres, double? RadialPlacedAnewMetres,
    bool ChangesByAdopting, bool ChangesIfPlacedAnew)
{
    /// <summary>Length of the shift of the design position, metres; null between different datums.</summary>
    public double? ShiftMetres => ShiftEastMetres is { } east && ShiftNorthMetres is { } north ? Math.Sqrt((east * east) + (north * north)) : null;
}
