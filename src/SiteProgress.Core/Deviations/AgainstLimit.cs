namespace SiteProgress.Core.Deviations;

/// <summary>
/// The one comparison with a limit, equality included. Values are worked out from recorded decimals; what differs only in
/// the last bits of a double (-12.1 minus -12.4 gives 0.3000000000000007) does not differ on the record, so a billionth of
/// the unit is let pass.
/// </summary>
public static class AgainstLimit
{
    private const double Billionth = 1e-9;

    /// <summary>True when the unrounded value is at most the limit, both in the same unit.</summary>
    public static bool IsAtMost(double value, double limit) => value <= limit + Billionth;

    /// <summary>True when the unrounded value is at least the limit, both in the same unit.</summary>
    public static bool IsAtLeast(double value, double limit) => value >= limit - Billionth;
}
