using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;

namespace SiteProgress.Web.RecordsIn;

/// <summary>Words of a record, as crews write them.</summary>
internal static class RecordWords
{
    /// <summary>The kind of satellite fix; empty where the record names none.</summary>
    public static string Of(FixType? fix) => fix switch
    {
        FixType.RtkFixed => "RTK fixed",
        FixType.RtkFloat => "RTK float",
        FixType.Differential => "differential",
        FixType.Autonomous => "single",
        _ => "",
    };

    /// <summary>What a line of a sand account says.</summary>
    public static string Of(SandEntry entry) => entry switch
    {
        SandEntry.Delivered => "delivered",
        SandEntry.StockMeasured => "stock",
        SandEntry.Wasted => "wasted",
        _ => throw new ArgumentOutOfRangeException(nameof(entry), entry, "unknown entry"),
    };

    /// <summary>How a log stands to the recorded installations.</summary>
    public static string Of(LogJoinOutcome outcome) => outcome switch
    {
        LogJoinOutcome.Joined => "joined",
        LogJoinOutcome.NoInstallation => "no installation of its barge, casing and time",
        LogJoinOutcome.NumberDisagrees => "pile number disagrees",
        LogJoinOutcome.RecordDisagrees => "record identifier disagrees",
        LogJoinOutcome.SeveralInstallations => "reaches over several installations",
        LogJoinOutcome.Superseded => "a later log counts",
        _ => throw new ArgumentOutOfRangeException(nameof(outcome), outcome, "unknown outcome"),
    };

    /// <summary>How an attempt ended.</summary>
    public static string Of(Outcome outcome) => outcome switch
    {
        Outcome.Complete => "complete",
        Outcome.Refused => "refused",
        Outcome.Interrupted => "interrupted",
        Outcome.Abandoned => "abandoned",
        Outcome.OffsetByInstruction => "offset by instruction",
        Outcome.Trial => "trial",
        _ => throw new ArgumentOutOfRangeException(nameof(outcome), outcome, "unknown outcome"),
    };
}
