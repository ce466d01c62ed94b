using SiteProgress.Bench.Coordinates;
using SiteProgress.Bench.Design;
using SiteProgress.Bench.Deviations;
using SiteProgress.Bench.Forecast;
using SiteProgress.Bench.Formats;
using SiteProgress.Bench.Intake;
using SiteProgress.Bench.Logs;
using SiteProgress.Bench.Matching;

namespace SiteProgress.Bench;

/// <summary>Every measurement, one line each, in the order they run in.</summary>
public static class Measurements
{
    public static IReadOnlyList<Measurement> All { get; } =
    [
        new("map", "first paint and drag of 100,000 piles, against Leaflet's circle markers on its canvas and leaflet.glify", MapBench.RunAsync),
        new("intake", "100,000 as-built rows from file to committed and judged, against a binary COPY of the same rows", IntakeBench.RunAsync),
        new("matching", "records to piles in groups of every shape against OR-Tools' assignment and flow, growth, and false alarms on 60 clean sites", MatchingBench.RunAsync),
        new("formats", "100,000 planned piles from each format into checked rows, against ogr2ogr reading the same file; memory of a 200 MB text", FormatsBench.RunAsync),
        new("coordinates", "a million points from site grid to latitude and longitude and back, against PROJ's C library; a CSV against cs2cs; every stored system against PROJ", CoordinatesBench.RunAsync),
        new("deviations", "figures of 100,800 installations against the same in NumPy, and the whole search for bias on them", DeviationsBench.RunAsync),
        new("deviations-page", "the page of deviations of 100,800 installations in a real store, from the address to usable in a browser", DeviationsPageBench.RunAsync),
        new("bias", "200 generated sites of each family of errors: false claims, detection by size, coverage of the stated intervals", BiasStudyBench.RunAsync),
        new("design", "a layout of nearly 200,000 piles, and the doubtful ones among 100,000 planned piles, against NetTopologySuite's indexed locators and tree", DesignBench.RunAsync),
        new("setups", "anchors and set-ups of what the demo has left in two zones and of 20 generated remainders against the bound no plan can beat, and against working row by row", SetUpsBench.RunAsync),
        new("forecast", "10,000 runs of the forecast against the exact convolution and against a plain NumPy resampling", ForecastBench.RunAsync),
        new("forecast-coverage", "does P10 to P90 hold the true finish of 300 generated projects a family at 25, 50 and 75 % done, beside an average rate", CoverageBench.RunAsync),
        new("logs", "interpretation of logs against reading the same samples once from memory", LogTimes.RunAsync),
        new("logs-derivation", "deriving 6,000 piles with a log each, first and anew, against the same piles without one", LogDerivationBench.RunAsync),
        new("logs-page", "the page of a pile with a log of 3,600 samples, from the address to the drawn chart in a browser", LogPageBench.RunAsync),
        new("logs-study", "2,000 generated logs a family against their truth: cycles, metres, sand, least diameter, hang-ups", LogStudyBench.RunAsync),
    ];
}
