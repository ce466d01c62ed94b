using SiteProgress.Core.Deviations;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Checks;

/// <summary>The one place that judges: a planned pile, the installations it stands on, and the limits in force.</summary>
public static class PileJudge
{
    /// <summary>Judges one pile. Every limit is compared with the unrounded value and met when equal to it.</summary>
    /// <param name="pile">The planned pile, site grid and site level datum.</param>
    /// <param name="attempts">All attempts adopted for it.</param>
    /// <param name="contract">The zone's design and limits, and what the site assumes where a record is silent.</param>
    /// <returns>State, deviation, quantities and checks of the pile.</returns>
    public static PileJudgement Judge(PlannedPile pile, IReadOnlyList<LocatedInstallation> attempts, JudgingContract contract)
    {
        ArgumentNullException.ThrowIfNull(pile);
        ArgumentNullException.ThrowIfNull(attempts);
        ArgumentNullException.ThrowIfNull(contract);
        IReadOnlyList<StandingPart> standing = StandingInstallations.Of(attempts);
        if (standing.Count == 0) return PileJudgement.NothingStands(pile, attempts.Count);

        JudgedPosition? position = PositionCheck.Governing(pile, standing, contract);
        SandFigures sand = SandFigures.Of(pile, standing, contract);
        IReadOnlyList<PartLog> logs = PartLogs.Of(pile, standing, contract);
        CheckResult[] checks =
        [
            PositionCheck.Judge(pile, position, standing, contract),
            LevelChecks.Top(pile, standing, contract),
            LevelChecks.Tip(pile, standing, contract),
            SandCheck.Judge(sand, logs, contract),
            LogChecks.LeastDiameter(pile, logs, contract),
            VerticalityCheck.Judge(logs, contract),
            LogChecks.Continuity(logs, contract),
            TimesCheck.Judge(logs, contract),
            .. SandAgreementCheck.Judge(logs, contract) is { } agreement ? [agreement] : Array.Empty<CheckResult>(),
        ];
        return new PileJudgement(pile, StateOf(checks), attempts.Count, standing, position, sand, Array.ConvertAll(checks, contract.Once.Of))
        {
            AsBuiltTopLevelMetres = standing[^1].ToLevelMetres,
            AsBuiltTipLevelMetres = standing[0].FromLevelMetres,
            Logs = logs,
        };
    }

    private static PileState StateOf(CheckResult[] checks)
    {
        if (checks.Any(check => check.Verdict == Verdict.NotMet)) return PileState.Finding;
        return checks.Any(check => check is { Required: true, Verdict: Verdict.NotJudged })
            ? PileState.IncompleteRecord
            : PileState.Installed;
    }
}

/// <summary>What a pile is judged by.</summary>
/// <param name="Zone">Design and limits of its zone.</param>
/// <param name="GridRotation">Turn from the site grid to the projected CRS grid.</param>
/// <param name="VolumeChangeFactor">C of the zone's sand source; null where the site names none.</param>
/// <param name="SandSource">Name of that source.</param>
/// <param name="DefaultUncertaintyMetres">Uncertainty (95 %) of a position whose record states none, metres.</param>
/// <param name="Needs">What a position must state beside an RTK-fixed solution before it is judged.</param>
public sealed record JudgingContract(
    Zone Zone,
    GridRotation GridRotation,
    double? VolumeChangeFactor,
    string SandSource,
    double DefaultUncertaintyMetres,
    PositionNeeds? Needs = null)
{
    /// <summary>The site's limit of the difference between two accounts of the sand of a pile, as a share; null where it sets none.</summary>
    public double? SandAgreementRatio { get; init; }

    /// <summary>Reads the log of a part; null where logs are not to be had.</summary>
    public PartLogReader? ReadLog { get; init; }

    internal SaidOnce Once { get; } = new();

    /// <summary>True when the contract requires this check.</summary>
    public bool Requires(CheckName check) => Zone.RequiredChecks.Contains(check);
}
