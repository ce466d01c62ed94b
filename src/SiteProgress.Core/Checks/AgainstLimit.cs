namespace SiteProgress.Core.Checks;

/// <summary>
/// Holds a value against a limit, equality included. Values are worked out from recorded decimals; what differs only in the
/// last bits of a double (-12.1 minus -12.4 gives 0.3000000000000007) does not differ on the record, so a billionth is let pass.
/// </summary>
internal static class AgainstLimit
{
    private const double Billionth = 1e-9;

    public static Verdict AtMost(double value, double limit) => value <= limit + Billionth ? Verdict.Met : Verdict.NotMet;

    public static Verdict AtLeast(double value, double limit) => value >= limit - Billionth ? Verdict.Met : Verdict.NotMet;
}
