using SiteProgress.Core.Deviations;
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
    /// <summary>The site's own alert, in the unit of the limit; null where it sets none for this check.</summary>
    public double? Alert { get; init; }

    /// <summary>True when the value is beyond that alert, within the limit or not.</summary>
    public bool BeyondAlert { get; init; }

    /// <summary>A check decided by a limit.</summary>
    /// <param name="check">Which question.</param>
    /// <param name="required">True where the zone's contract asks for it.</param>
    /// <param name="answer">The comparison.</param>
    /// <param name="value">The number as it is shown: the size that was compared with its sign.</param>
    /// <param name="unit">Unit of all numbers.</param>
    /// <param name="nearLimit">True when value and limit differ by no more than the stated uncertainty.</param>
    /// <param name="reason">What was compared, and where the limit comes from.</param>
    internal static CheckResult Held(CheckName check, bool required, LimitAnswer answer, double value, string unit, bool nearLimit, string reason)
        => new(check, answer.IsMet ? Verdict.Met : Verdict.NotMet, required, value, answer.Limit, unit, nearLimit, reason) { Alert = answer.Alert, BeyondAlert = answer.IsBeyondAlert };

    /// <summary>A check that cannot be judged, because something is missing.</summary>
    public static CheckResult Missing(CheckName check, bool required, string unit, string whatIsMissing)
        => new(check, Verdict.NotJudged, required, null, null, unit, false, whatIsMissing);
}
