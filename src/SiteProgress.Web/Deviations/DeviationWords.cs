using SiteProgress.Core.Deviations;

namespace SiteProgress.Web.Deviations;

/// <summary>Words of deviations.</summary>
internal static class DeviationWords
{
    /// <summary>What is held against a limit.</summary>
    public static string Of(PositionMeasure measure) => measure switch
    {
        PositionMeasure.Along => "Deviation along the first axis",
        PositionMeasure.Across => "Deviation along the second axis",
        _ => "Radial deviation",
    };
}
