using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Checks;

/// <summary>What is known of one planned pile, with every number behind it.</summary>
/// <param name="Pile">The planned pile.</param>
/// <param name="State">Where it stands.</param>
/// <param name="Attempts">Attempts adopted for it.</param>
/// <param name="Standing">The installations it stands on, lowest part first.</param>
/// <param name="Position">The judged position, or null when none is on record.</param>
/// <param name="Sand">Its sand.</param>
/// <param name="Checks">The checks, in the order of <see cref="CheckName"/>.</param>
public sealed record PileJudgement(
    PlannedPile Pile,
    PileState State,
    int Attempts,
    IReadOnlyList<StandingPart> Standing,
    JudgedPosition? Position,
    SandFigures? Sand,
    IReadOnlyList<CheckResult> Checks)
{
    /// <summary>The logs of the parts it stands on, lowest first.</summary>
    public IReadOnlyList<PartLog> Logs { get; init; } = [];

    /// <summary>As-built top level, metres above the level datum.</summary>
    public double? AsBuiltTopLevelMetres { get; init; }

    /// <summary>As-built tip level, metres above the level datum.</summary>
    public double? AsBuiltTipLevelMetres { get; init; }

    /// <summary>How its design was changed after it was built, while nothing is decided about that; null where it was not.</summary>
    public string? OpenDesignChange { get; init; }

    /// <summary>As-built length, metres: the sum of the standing parts.</summary>
    public double? LengthMetres => Standing.Count == 0 ? null : Standing.Sum(part => part.LengthMetres);

    /// <summary>Mean diameter that the sand in the pile gives over the as-built length, metres: that of a cylinder of the same volume.</summary>
    public double? MeanDiameterMetres => Sand is { InPile: { } sand } && LengthMetres is > 0 and { } length ? Math.Sqrt(4 * sand / (Math.PI * length)) : null;

    /// <summary>True when a value is beyond the site's own alert for it.</summary>
    public bool BeyondAlert => Checks.Any(check => check.BeyondAlert);

    /// <summary>A pile for which nothing stands.</summary>
    public static PileJudgement NothingStands(PlannedPile pile, int attempts)
        => new(pile, PileState.Outstanding, attempts, [], null, null, []);
}
