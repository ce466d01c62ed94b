using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Checks;

/// <summary>The answer to a check.</summary>
public enum Verdict
{
    /// <summary>The limit is kept.</summary>
    Met = 1,

    /// <summary>The limit is not kept: a finding.</summary>
    NotMet = 2,

    /// <summary>The record does not hold what is needed to tell. Never shown as met.</summary>
    NotJudged = 3,
}

/// <summary>One check of one pile, with the numbers it was decided on.</summary>
/// <param name="Check">Which question.</param>
/// <param name="Verdict">The answer.</param>
/// <param name="Required">True where the zone's contract asks for it.</param>
/// <param name="Value">The unrounded number that was compared, in the unit named; null when not judged.</param>
/// <param name="Limit">The limit it was compared with, in the same unit.</param>
/// <param name="Unit">Unit of both: m, ratio, deg, m/min.</param>
/// <param name="NearLimit">True when value and limit differ by no more than the stated uncertainty.</param>
/// <param name="Reason">What was compared and where the limit comes from; when not judged, what is missing.</param>
public sealed record CheckResult(
    CheckName Check,
    Verdict Verdict,
    bool Required,
    double? Value,
    double? Limit,
    string Unit,
    bool NearLimit,
    string Reason)
{
    /// <summary>A check that cannot be judged, because something is missing.</summary>
    public static CheckResult Missing(CheckName check, bool required, string unit, string whatIsMissing)
        => new(check, Verdict.NotJudged, required, null, null, unit, false, whatIsMissing);
}
