using SiteProgress.Core.Deviations;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Checks;

/// <summary>What only a log can tell: is the pile thick enough everywhere, and without a gap?</summary>
internal static class LogChecks
{
    /// <summary>Least equivalent diameter over a sliding metre, of all parts together.</summary>
    public static CheckResult LeastDiameter(PlannedPile pile, IReadOnlyList<PartLog> logs, JudgingContract contract)
    {
        const CheckName Check = CheckName.LeastDiameter;
        bool required = contract.Requires(Check);
        if (PartLogs.WhyNot(logs) is { } why) return CheckResult.Missing(Check, required, "m", why);
        if (logs.FirstOrDefault(log => log.Figures!.Least is null) is { } without)
            return CheckResult.Missing(Check, required, "m", $"The {PartLogs.Name(without)} tells no diameter: {(without.Figures!.SandLeftCubicMetres is null ? "it holds no height of the sand" : "the volume-change factor of the sand is not stated, or the pile is too short")}.");
        if (contract.Zone.Limits.DiameterShortRatio is not { } share)
            return CheckResult.Missing(Check, required, "m", "The contract sets no limit of the least equivalent diameter for this zone.");
        PartLog thinnest = logs.MinBy(log => log.Figures!.Least!.DiameterMetres)!;
        LeastDiameter least = thinnest.Figures!.Least!;
        double limit = pile.DiameterMetres * (1 - share);
        return new CheckResult(
            Check, AgainstLimit.IsAtLeast(least.DiameterMetres, limit) ? Verdict.Met : Verdict.NotMet, required, least.DiameterMetres, limit, "m",
            least.LowMetres <= limit && limit <= least.HighMetres,
            FormattableString.Invariant($"Least equivalent diameter over a metre, from {least.FromLevelMetres:0.00} m to {least.ToLevelMetres:0.00} m by the {PartLogs.Name(thinnest)}, >= limit ({contract.Zone.Limits.Source}; {contract.Zone.Limits.Approval})."));
    }

    /// <summary>
    /// Hang-ups and places with too little sand over which no later pass went. A gauge that stood still or was at the end of its
    /// range, or a break in the record while the pile was built, hides what happened: then the pile is not judged, unless what is seen is a finding already.
    /// </summary>
    public static CheckResult Continuity(IReadOnlyList<PartLog> logs, JudgingContract contract)
    {
        const CheckName Check = CheckName.Continuity;
        bool required = contract.Requires(Check);
        if (PartLogs.WhyNot(logs) is { } why) return CheckResult.Missing(Check, required, "m", why);
        if (logs.FirstOrDefault(log => log.Figures!.SandLeftCubicMetres is null) is { } without)
            return CheckResult.Missing(Check, required, "m", $"The {PartLogs.Name(without)} holds no height of the sand.");
        if (contract.Zone.Limits.GapMetres is not { } limit)
            return CheckResult.Missing(Check, required, "m", "The contract sets no limit of a gap along the pile for this zone.");
        PartLog worst = logs.MaxBy(log => log.Figures!.OpenHangUpMetres)!;
        LogFigures figures = worst.Figures!;
        string source = $"({contract.Zone.Limits.Source}; {contract.Zone.Limits.Approval})";
        if (!AgainstLimit.IsAtMost(figures.OpenHangUpMetres, limit))
        {
            return new CheckResult(
                Check, Verdict.NotMet, required, figures.OpenHangUpMetres, limit, "m", false,
                FormattableString.Invariant($"Rise of the casing in which the sand stayed in it, from {figures.OpenHangUpLevelMetres:0.00} m by the {PartLogs.Name(worst)}, and no later pass went below it, <= limit {source}."));
        }

        if (logs.FirstOrDefault(log => log.Figures!.LowestCover is not null) is { } low)
        {
            LowCover cover = low.Figures!.LowestCover!;
            return new CheckResult(
                Check, Verdict.NotMet, required, Math.Abs(cover.ToLevelMetres - cover.FromLevelMetres), limit, "m", false,
                FormattableString.Invariant($"For {cover.Seconds:0} s the sand stood too low above the tip while the casing rose, from {cover.FromLevelMetres:0.00} m to {cover.ToLevelMetres:0.00} m by the {PartLogs.Name(low)}, and no later pass went below it."));
        }

        return WhatIsHidden(logs, limit) is { } hidden
            ? CheckResult.Missing(Check, required, "m", hidden)
            : new CheckResult(
                Check, Verdict.Met, required, figures.OpenHangUpMetres, limit, "m", false,
                $"Longest rise of the casing in which the sand stayed in it, and over which no later pass went, <= limit {source}; sand stood above the tip throughout.");
    }

    private static string? WhatIsHidden(IReadOnlyList<PartLog> logs, double limit)
    {
        foreach (PartLog log in logs)
        {
            if (log.Figures!.StuckMetres > 0) return FormattableString.Invariant($"A gauge stood still in the {PartLogs.Name(log)} while the casing went {log.Figures.StuckMetres:0.0} m: what happened there is not known.");
            if (log.Figures.GapSeconds > 0) return FormattableString.Invariant($"The {PartLogs.Name(log)} has a break of {log.Figures.GapSeconds:0} s between base and top: what happened there is not known.");
            if (log.Figures.NotExcluded is { } doubt && !AgainstLimit.IsAtMost(doubt.UpToMetres, limit))
                return FormattableString.Invariant($"While the sand gauge saw nothing, from {doubt.FromLevelMetres:0.00} m to {doubt.ToLevelMetres:0.00} m by the {PartLogs.Name(log)}, a hang-up of up to {doubt.UpToMetres:0.00} m is not excluded, and no later pass went below it.");
        }

        return null;
    }

    /// <summary>Sand of each metre of the pile against its design; null where the contract sets no such limit or no log tells it.</summary>
    public static CheckResult? SandByDepth(IReadOnlyList<PartLog> logs, JudgingContract contract)
    {
        if (contract.Zone.Limits.MetreSandShortRatio is not { } share || PartLogs.WhyNot(logs) is not null) return null;
        if (logs.Where(log => log.Figures!.Thinnest is not null).MinBy(log => log.Figures!.Thinnest!.SandRatio) is not { } thinnest) return null;
        MetreAgainstDesign metre = thinnest.Figures!.Thinnest!;
        double limit = 1 - share;
        return new CheckResult(
            CheckName.Sand, AgainstLimit.IsAtLeast(metre.SandRatio, limit) ? Verdict.Met : Verdict.NotMet, contract.Requires(CheckName.Sand), metre.SandRatio, limit, "ratio", false,
            FormattableString.Invariant($"Sand in the pile from {metre.FromLevelMetres:0.00} m to {metre.ToLevelMetres:0.00} m, by the {PartLogs.Name(thinnest)}, divided by the sand of the design diameter >= limit ({contract.Zone.Limits.Source}; {contract.Zone.Limits.Approval})."));
    }
}
