using SiteProgress.Core.Checks;
using SiteProgress.Core.Piles;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Piles;

/// <summary>The numbers of a check as people read them: in the unit of the trade, and never rounded so that they hide the verdict.</summary>
internal static class CheckFigures
{
    private const int MostDecimals = 6;

    /// <summary>Unit of value and limit as shown.</summary>
    public static string Unit(CheckResult check) => check switch
    {
        { Check: CheckName.Position } => "mm",
        { Unit: "ratio" } => "%",
        { Unit: "deg" } => "°",
        _ => check.Unit,
    };

    /// <summary>The value that was compared; null when not judged.</summary>
    public static string? Value(CheckResult check)
        => check.Value is { } value ? Show.Number(value * Factor(check), Decimals(check)) : null;

    /// <summary>The limit with its comparison, such as <c>≤ 150</c>; null where there is none.</summary>
    public static string? Limit(CheckResult check)
        => check.Limit is { } limit && check.Check != CheckName.Times
            ? $"{Comparison(check)} {Show.Number(limit * Factor(check), Decimals(check))}"
            : null;

    /// <summary>How value and limit are compared; the sentence of the check says the same in words.</summary>
    private static string Comparison(CheckResult check) => check switch
    {
        { Check: CheckName.Top } => "≤ ±",
        _ => check.Reason.Contains(">=", StringComparison.Ordinal) ? "≥" : "≤",
    };

    /// <summary>Decimals of the unit, and more where value and limit would look alike although the one is not the other.</summary>
    private static int Decimals(CheckResult check)
    {
        int decimals = check switch
        {
            { Check: CheckName.Position } => 0,
            { Unit: "ratio" } => 1,
            { Unit: "min" } => 0,
            _ => 2,
        };
        if (check is not { Value: { } value, Limit: { } limit, Verdict: Verdict.NotMet }) return decimals;
        if (check.Check == CheckName.Top) value = Math.Abs(value);
        while (decimals < MostDecimals && Show.Number(value * Factor(check), decimals) == Show.Number(limit * Factor(check), decimals)) decimals++;
        return decimals;
    }

    private static double Factor(CheckResult check) => check switch
    {
        { Check: CheckName.Position } => 1000,
        { Unit: "ratio" } => 100,
        _ => 1,
    };
}
