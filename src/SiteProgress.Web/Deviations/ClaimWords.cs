using SiteProgress.Core.Bias;

namespace SiteProgress.Web.Deviations;

/// <summary>Words of claims as pages and files write them.</summary>
public static class ClaimWords
{
    /// <summary>How far a claim is supported.</summary>
    public static string Of(ClaimStanding standing) => standing switch
    {
        ClaimStanding.Suspected => "suspected",
        ClaimStanding.RecordWrong => "the record is wrong",
        ClaimStanding.PilesWrong => "the piles are wrong",
        ClaimStanding.Unsettled => "suspected, not settled",
        _ => throw new ArgumentOutOfRangeException(nameof(standing), standing, "unknown standing"),
    };

    /// <summary>A chance as a number with its first digit.</summary>
    public static string Chance(double chance) => chance switch
    {
        >= 0.001 => chance.ToString("0.###", System.Globalization.CultureInfo.InvariantCulture),
        >= 1e-6 => chance.ToString("0.0e-0", System.Globalization.CultureInfo.InvariantCulture),
        _ => "< 0.000001",
    };
}
