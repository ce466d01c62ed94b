using System.Diagnostics;
using System.Globalization;
using System.Runtime.CompilerServices;
using SiteProgress.Core.Coordinates;

namespace SiteProgress.Bench.Coordinates;

/// <summary>
/// A million points from the site grid to latitude and longitude and back on one thread, against PROJ's C library at its faster setting that
/// holds 0.01 mm, ProjNET and npm's proj4; and every projected system of PostGIS's table against PROJ.
/// </summary>
public static class CoordinatesBench
{
    private const int Count = 1_000_000;
    private const int SweepSide = 7;
    private const double AgreementMetres = 1e-5;
    private const double SpeedGoal = 3;

    /// <summary>A site of 6 km by 6 km, turned by 33 degrees, at the edge of zone 31; invented.</summary>
    private static readonly Adjustment Site = new(
        AdjustmentKind.Similarity, 1, 0.83834896, -0.54444013, 0.54444013, 0.83834896, new(3000, 3000), new(702_100.25, 5_790_450.75));

    /// <summary>Measures, writes both tables, and gives what came out against each goal.</summary>
    public static async Task<IReadOnlyList<Outcome>> RunAsync(TextWriter output)
    {
        var rows = SpatialReferenceTable.ProjectedRows().ToArray();
        var definition = rows.Single(r => r is { Authority: "EPSG", Code: 32631 }).WellKnownText;
        var crs = ProjectedCrs.FromWkt(32631, definition).Crs!;
        var service = new CoordinateService(Site, crs);
        var random = new Random(20260301);
        var site = new SiteCoordinate[Count];
        for (var i = 0; i < Count; i++) site[i] = new(random.NextDouble() * 6000, random.NextDouble() * 6000);
        using var peer = new ProjPeer();
        using var contenders = new ConversionContenders(peer, service, site);
        var measured = await Rounds.RunAsync(ConversionContenders.Names, name => Task.FromResult(contenders.Measure(name)));
        var differences = DifferencesOverTheZone(peer, crs);
        await WriteTimesAsync(output, measured, differences);
        await WriteCoresAsync(output, service, site);
        return [.. SpeedOutcomes(measured, differences), .. await CsvBench.RunAsync(output, peer, definition), .. await SweepAsync(output, rows, peer)];
    }

    /// <summary>How far each contender lies from PROJ's own algorithm over the whole area of use of the zone, metres.</summary>
    private static Dictionary<string, double> DifferencesOverTheZone(ProjPeer peer, ProjectedCrs crs)
    {
        var random = new Random(20260302);
        var area = crs.AreaOfUse!;
        var geographic = new GeographicCoordinate[Count];
        for (var i = 0; i < Count; i++)
            geographic[i] = new(area.SouthDegrees + (area.NorthDegrees - area.SouthDegrees) * random.NextDouble(), area.WestDegrees + area.WidthDegrees * random.NextDouble());
        var projected = new ProjectedCoordinate[Count];
        crs.Projection.Forward(geographic, projected);
        var unmoved = new Adjustment(AdjustmentKind.Similarity, 1, 1, 0, 0, 1, new(0, 0), new(0, 0));
        using var contenders = new ConversionContenders(
            peer, new CoordinateService(unmoved, crs), [.. projected.Select(p => new SiteCoordinate(p.EastingMetres, p.NorthingMetres))]);
        var reference = contenders.Measure(ConversionContenders.Proj).Values;
        return ConversionContenders.Names.ToDictionary(name => name, name => Largest(contenders.Measure(name).Values, reference));
    }

    private static async Task WriteTimesAsync(
        TextWriter output, IReadOnlyDictionary<string, IReadOnlyList<ConversionTimes>> measured, Dictionary<string, double> differences)
    {
        await output.WriteLineAsync(Text($"coordinates: {Count} points, site grid to WGS 84 through UTM zone 31 and back, one thread; median of {Rounds.Counted}"));
        await output.WriteLineAsync($"{"",-14}{"to geographic",22}{"to site grid",22}{"from PROJ, over the zone",28}");
        foreach (var name in ConversionContenders.Names)
            await output.WriteLineAsync(Text($"{name,-14}{Rate(There(measured[name])),22}{Rate(Back(measured[name])),22}{differences[name] * 1000,25:0.00000} mm"));
    }

    private static async Task WriteCoresAsync(TextWriter output, CoordinateService service, SiteCoordinate[] site)
    {
        var geographic = new GeographicCoordinate[site.Length];
        var cores = Environment.ProcessorCount;
        var times = new List<(double One, double All)>();
        for (var round = 0; round <= Rounds.Counted; round++)
        {
            var start = Stopwatch.GetTimestamp();
            for (var i = 0; i < 4; i++) service.SiteToGeographic(site, geographic);
            var one = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
            start = Stopwatch.GetTimestamp();
            for (var i = 0; i < 4; i++)
                Parallel.For(0, cores, part =>
                {
                    int from = site.Length / cores * part, to = part == cores - 1 ? site.Length : site.Length / cores * (part + 1);
                    service.SiteToGeographic(site.AsSpan(from, to - from), geographic.AsSpan(from, to - from));
                });
            if (round > 0) times.Add((one, Stopwatch.GetElapsedTime(start).TotalMilliseconds));
        }

        await output.WriteLineAsync(Text($"over {cores} cores {Rounds.Median(times.Select(t => t.One / t.All)):0.00} times as fast as on one"));
    }

    private static IEnumerable<Outcome> SpeedOutcomes(
        IReadOnlyDictionary<string, IReadOnlyList<ConversionTimes>> measured, Dictionary<string, double> differences)
    {
        string[] settings = differences[ConversionContenders.ProjApproximate] <= AgreementMetres
            ? [ConversionContenders.Proj, ConversionContenders.ProjApproximate]
            : [ConversionContenders.Proj];
        yield return new("coordinates-to-geographic", settings.Min(s => There(measured[s])) / There(measured[ConversionContenders.Ours]), SpeedGoal);
        yield return new("coordinates-to-site-grid", settings.Min(s => Back(measured[s])) / Back(measured[ConversionContenders.Ours]), SpeedGoal);
        yield return new("coordinates-agreement-within-0.01-mm", AgreementMetres / differences[ConversionContenders.Ours], 1);
    }

    private static async Task<IReadOnlyList<Outcome>> SweepAsync(TextWriter output, SpatialReferenceRow[] rows, ProjPeer peer)
    {
        var results = CoordinatesSweep.Run(rows, SweepSide, peer);
        var supported = results.Where(r => r.Refusal is null).ToArray();
        await output.WriteLineAsync(Text(
            $"systems: {rows.Length} projected rows, {supported.Length} supported, {rows.Length - supported.Length} refused; largest difference from PROJ {supported.Max(r => r.ForwardMetres) * 1000:0.0000} mm, there and back {supported.Max(r => r.RoundTripMetres) * 1000:0.0000} mm"));
        await using (var table = new StreamWriter(Path.Combine(Checkout(), "docs", "coordinate-systems.md")))
            SweepReport.WriteTable(table, results, SweepSide);
        await using (var methods = new StreamWriter(Path.Combine(Checkout(), "src", "SiteProgress.Core", "Coordinates", "Definitions", "compared-methods.csv")))
            SweepReport.WriteMethods(methods, results);
        var refusals = Path.Combine(Checkout(), "src", "SiteProgress.Core", "Coordinates", "Definitions", "refused-systems.csv");
        using var found = new StringWriter();
        SweepReport.WriteRefusals(found, results);
        if (await File.ReadAllTextAsync(refusals) != found.ToString())
        {
            await File.WriteAllTextAsync(refusals, found.ToString());
            await output.WriteLineAsync("The systems found to differ have changed: refused-systems.csv was written anew; build again.");
        }

        return
        [
            new("coordinates-systems-within-0.1-mm", CoordinatesSweep.ForwardLimitMetres / supported.Max(r => r.ForwardMetres), 1),
            new("coordinates-systems-back-within-0.01-mm", CoordinatesSweep.RoundTripLimitMetres / supported.Max(r => r.RoundTripMetres), 1),
        ];
    }

    /// <summary>Largest difference on the ground and in the site grid, metres.</summary>
    private static double Largest(double[] ours, double[] theirs)
    {
        double largest = 0;
        for (var i = 0; i < Count; i++)
        {
            var latitude = (ours[2 * i] - theirs[2 * i]) * 111_320;
            var longitude = (ours[2 * i + 1] - theirs[2 * i + 1]) * 111_320 * Math.Cos(theirs[2 * i] * Math.PI / 180);
            double x = ours[2 * (Count + i)] - theirs[2 * (Count + i)], y = ours[2 * (Count + i) + 1] - theirs[2 * (Count + i) + 1];
            largest = Math.Max(largest, Math.Max(Math.Sqrt(latitude * latitude + longitude * longitude), Math.Sqrt(x * x + y * y)));
        }

        return largest;
    }

    private static double There(IEnumerable<ConversionTimes> times) => Rounds.Median(times.Select(t => t.ThereMilliseconds));

    private static double Back(IEnumerable<ConversionTimes> times) => Rounds.Median(times.Select(t => t.BackMilliseconds));

    private static string Rate(double milliseconds) => Text($"{milliseconds:0.0} ms, {Count / milliseconds / 1000:0.0} M/s");

    private static string Checkout([CallerFilePath] string file = "") => Path.Combine(Path.GetDirectoryName(file)!, "..", "..", "..");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
