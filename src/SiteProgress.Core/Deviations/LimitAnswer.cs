namespace SiteProgress.Core.Deviations;

/// <summary>How a value stands to its limit and to the site's own alert.</summary>
public enum LimitStanding
{
    /// <summary>At most the alert, or at most the limit where the site sets no alert.</summary>
    Met = 1,

    /// <summary>Beyond the site's own alert, and at most the limit.</summary>
    Alert = 2,

    /// <summary>Beyond the contract limit.</summary>
    NotMet = 3,
}

/// <summary>A value held against its contract limit and the site's alert, all three in one unit and unrounded.</summary>
/// <param name="Value">What is compared; of something that may differ either way its size.</param>
/// <param name="Limit">The contract limit (&lt;=).</param>
/// <param name="Alert">The site's own alert (&lt;=); null where it sets none.</param>
public readonly record struct LimitAnswer(double Value, double Limit, double? Alert)
{
    /// <summary>How it stands. A value beyond the limit is not met whatever the alert says.</summary>
    public LimitStanding Standing
        => !AgainstLimit.IsAtMost(Value, Limit) ? LimitStanding.NotMet : IsBeyondAlert ? LimitStanding.Alert : LimitStanding.Met;

    /// <summary>True when the limit is kept, equality included.</summary>
    public bool IsMet => AgainstLimit.IsAtMost(Value, Limit);

    /// <summary>True when it is beyond the site's alert, within the limit or not.</summary>
    public bool IsBeyondAlert => Alert is { } alert && !AgainstLimit.IsAtMost(Value, alert);

    /// <summary>The value as a share of the limit; endless for a limit of nothing.</summary>
    public double ShareOfLimitRatio => Limit > 0 ? Value / Limit : Value > 0 ? double.PositiveInfinity : 0;
}
