using SiteProgress.Core.Checks;
using SiteProgress.Core.Piles;

namespace SiteProgress.Web.Piles;

/// <summary>Words that only the pages of piles use; those of every page are <see cref="Shell.TradeWords"/>.</summary>
internal static class PileWords
{
    /// <summary>The kind of fix.</summary>
    public static string Of(FixType fix) => fix switch
    {
        FixType.RtkFixed => "RTK fixed",
        FixType.RtkFloat => "RTK float",
        FixType.Differential => "differential",
        FixType.Autonomous => "single",
        _ => throw new ArgumentOutOfRangeException(nameof(fix), fix, "unknown fix"),
    };

    /// <summary>The moment of a position.</summary>
    public static string Of(PositionMoment moment) => moment == PositionMoment.TouchDown ? "touch-down" : "end of penetration";
}
