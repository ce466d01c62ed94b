using SiteProgress.Core.Ground;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Ground;

/// <summary>Words of the ground.</summary>
internal static class GroundWords
{
    /// <summary>How a test stands to the pile beside it.</summary>
    public static string Of(TestBesidePile one) => (one.Pile, one.Moment) switch
    {
        (null, _) => "no planned pile within a spacing",
        (_, TestMoment.Before) => "before the pile",
        (_, TestMoment.After) => "after the pile",
        _ => "not known: on the pile's day, or without a day",
    };

    /// <summary>Counts as a person reads them: how many, least, mean.</summary>
    public static string Of(IReadOnlyList<int> counts) => counts.Count switch
    {
        0 => "—",
        1 => Show.Count(counts[0]),
        _ => $"{Show.Number(counts.Average(), 1)} ({Show.Count(counts[0])} to {Show.Count(counts[^1])}, {Show.Count(counts.Count)} tests)",
    };

    /// <summary>A ratio a_s.</summary>
    public static string Ratio(double ratio) => Show.Number(ratio, 3);
}
