namespace SiteProgress.Core.Logs;

/// <summary>One number by which logs are read, in words for people.</summary>
/// <param name="Name">Name by which settings set it.</param>
/// <param name="Unit">Its unit; empty for a plain ratio.</param>
/// <param name="Meaning">What it decides.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record LogNumber(string Name, string Unit, string Meaning, string Source)
{
    /// <summary>Its value among these numbers.</summary>
    public double Of(LogConstants constants) => LogConstants.Value(constants, Name);
}

/// <summary>All numbers by which logs are read, in the order in which a log is read. No published standard gives them.</summary>
public static class LogNumbers
{
    private const string Practice = "common practice, no source";
    private const string Generated = "common practice, no source; set on generated logs other than those reported";

    /// <summary>All of them.</summary>
    public static IReadOnlyList<LogNumber> All { get; } =
    [
        new("gapSeconds", "s", "Samples farther apart are a break in the record.", Practice),
        new("spikeMetres", "m", "A value that leaves its neighbours by more and comes back is a spike.", Practice),
        new("fastestMetresPerSeconds", "m/s", "Fastest the casing moves; a spike is farther than this allows.", Practice),
        new("smallestStrokeMetres", "m", "Smallest stroke that counts as a withdrawal or a re-drive.", Practice),
        new("strokeToNoiseRatio", "", "A stroke is also this many times the noise of the tip.", Practice),
        new("baseBandMetres", "m", "Bottoms this near the deepest belong to the base.", Practice),
        new("newPassMetres", "m", "A re-drive this far below the bottom before it is a new pass.", Practice),
        new("smallestRiseMetres", "m", "A cycle that rises less is a stroke on the spot; its sand counts with the next.", Practice),
        new("stopRateMetres", "m", "Last metres of penetration over which the rate at the stop is taken.", Practice),
        new("pourBeforeSeconds", "s", "Before the logged moment of a charge its sand may already fall; a slower pour is followed back.", Practice),
        new("pourAfterSeconds", "s", "After the logged moment of a charge its sand is in the casing.", Practice),
        new("largestLagSeconds", "s", "Longest lag of a sand gauge that is looked for.", Practice),
        new("namedLagSeconds", "s", "Lag of the sand gauge that is told as an event.", Practice),
        new("stuckMetres", "m", "A gauge that does not change while the casing moves this far is stuck.", Practice),
        new("hangUpMetres", "m", "Rise of the casing in which the sand stays in it that is told as a hang-up.", Generated),
        new("hangUpToFindMetres", "m", "Longer hang-ups where the gauge saw nothing are told, or said not to be excluded.", Practice),
        new("pushedBackMetres", "m", "What a re-drive pushes back where the gauge saw none.", Generated),
        new("pushedBackSpreadMetres", "m", "Spread of what a re-drive pushes back, a standard deviation.", Generated),
        new("hangUpSpreadRatio", "", "Sand that stayed unseen is a hang-up from so many standard deviations on.", Generated),
        new("excludedSpreadRatio", "", "So many standard deviations below the shortest to be found, one is excluded.", Generated),
        new("leastCoverMetres", "m", "Least sand above the tip while the casing rises.", Practice),
        new("leastEventSeconds", "s", "Cover or air must be too low for so long before it is told.", Practice),
        new("waterWeightFactor", "kN/m³", "Weight of sea water, for the pressure outside at the tip.", "1025 kg/m³, standard ocean water at the surface, rounded, times 9.81 m/s²"),
        new("airPressureShortFactor", "kPa", "How far the air may stay below the pressure outside.", Practice),
        new("soilPlugMetres", "m", "Rise in the casing during penetration without a charge that shows soil.", Practice),
        new("valveClosedMetres", "m", "Rise of the casing with the valve closed that is told.", Practice),
        new("redriveMissingRatio", "", "A withdrawal this many times the pile's own median lacks its re-drive.", Practice),
        new("overPenetrationMetres", "m", "How far below the design tip penetration may go before it is told.", Practice),
        new("refusalMetres", "m", "How far above the design tip a stop is a refusal.", Practice),
        new("refusalMetresPerMinute", "m/min", "Rate at the stop below which the ground refused.", Practice),
        new("pullOutAboveTopMetres", "m", "How far from the design top the pull-out may begin before it is told.", Practice),
        new("levelFloorMetres", "m", "Standing spread of a level at a turn of the casing beyond its noise, a standard deviation.", Generated),
        new("sandFloorMetres", "m", "The same of a sand height.", Generated),
        new("promptFloorRatio", "", "Share of both that is left where a gauge follows at once and its noise has no memory.", Generated),
        new("reckonedSandMetres", "m", "Spread of a sand height that was reckoned where the gauge saw nothing, a standard deviation.", Generated),
        new("chargeRatio", "", "Spread of a recorded charge as a share of its volume, a standard deviation.", Practice),
    ];
}
