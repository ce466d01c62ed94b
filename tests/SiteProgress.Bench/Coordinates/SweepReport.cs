using System.Globalization;

namespace SiteProgress.Bench.Coordinates;

/// <summary>Writes the sweep down: by method for people, refused systems for the product.</summary>
public static class SweepReport
{
    /// <summary>A table in Markdown: how many systems of each method are supported, how many refused, and the largest differences.</summary>
    public static void WriteTable(TextWriter output, IReadOnlyList<SweepResult> results, int side)
    {
        output.Write(Text($"# Projected systems compared with PROJ\n\nMade by `./bench coordinates`: every projected row of PostGIS's spatial_ref_sys ({results.Count}), {side * side} points over its area of use.\n"));
        output.Write(Text($"Supported: {results.Count(r => r.Refusal is null)}, refused: {results.Count(r => r.Refusal is not null)}. Supported means within 0.1 mm of PROJ forward and 0.01 mm there and back.\n\n"));
        output.Write("The inverse is held against PROJ's. Where the two differ, PROJ's own way there and back misses by as much (last column): its equal-area latitudes come from a short series, and next to a pole a nanometre of an equal-area northing is decimetres of latitude.\n\n");
        output.Write("| method | supported | refused | forward, largest mm | inverse, largest mm | there and back, largest mm | PROJ there and back, largest mm |\n| --- | ---: | ---: | ---: | ---: | ---: | ---: |\n");
        foreach (var method in results.GroupBy(r => r.Method).OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal))
        {
            var good = method.Where(r => r.Refusal is null).ToArray();
            output.Write(Text($"| {method.Key.Replace('_', ' ')} | {good.Length} | {method.Count() - good.Length} | {Largest(good, r => r.ForwardMetres)} | {Largest(good, r => r.InverseMetres)} | {Largest(good, r => r.RoundTripMetres)} | {Largest(good, r => r.PeerRoundTripMetres)} |\n"));
        }

        output.Write("\n## Refused although the method is supported\n\n| system | name | reason |\n| --- | --- | --- |\n");
        foreach (var r in results.Where(r => r.Refusal is not null && r.IsFound))
            output.Write(Text($"| {r.Row.Authority}:{r.Row.Code} | {Name(r)} | {r.Refusal} |\n"));
    }

    /// <summary>The same by method, as the resource that the product shows.</summary>
    public static void WriteMethods(TextWriter output, IReadOnlyList<SweepResult> results)
    {
        output.Write("# Projected systems by method, compared with PROJ over their areas of use; made by ./bench coordinates.\nmethod,supported,refused,forward mm,there and back mm\n");
        foreach (var method in results.GroupBy(r => r.Method).OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal))
        {
            var good = method.Where(r => r.Refusal is null).ToArray();
            output.Write(Text($"{method.Key.Replace('_', ' ')},{good.Length},{method.Count() - good.Length},{Largest(good, r => r.ForwardMetres)},{Largest(good, r => r.RoundTripMetres)}\n"));
        }
    }

    /// <summary>The refusals found by comparing, as the resource that the product reads.</summary>
    public static void WriteRefusals(TextWriter output, IReadOnlyList<SweepResult> results)
    {
        output.Write("# Systems of PostGIS's spatial_ref_sys whose stored definition does not reproduce PROJ's under the same code; made by ./bench coordinates.\nauthority,code,reason\n");
        foreach (var r in results.Where(r => r.Refusal is not null && r.IsFound))
            output.Write(Text($"{r.Row.Authority},{r.Row.Code},{r.Refusal}\n"));
    }

    private static string Name(SweepResult result) => result.Row.WellKnownText.Split('"')[1];

    private static string Largest(SweepResult[] results, Func<SweepResult, double> part) =>
        results.Length == 0 ? "" : Text($"{results.Max(part) * 1000:0.0000}");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
