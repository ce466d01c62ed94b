using System.Diagnostics;
using System.Globalization;
using SiteProgress.Core.Bias;
using SiteProgress.DemoGenerator.BiasStudy;

namespace SiteProgress.Bench.Deviations;

/// <summary>
/// How often a planted bias is found, how often a clean site is blamed, and how often the stated 95 % intervals hold the truth: 200
/// generated sites of each family of errors and of each size. The peer is the goal, not another program.
/// </summary>
internal static class BiasStudyBench
{
    private const int Sites = 200;
    private static readonly double[] Sizes = [0.05, 0.075, 0.10, 0.15, 0.20, 0.30, 0.40];

    public static async Task<IReadOnlyList<Outcome>> RunAsync(TextWriter output)
    {
        List<Outcome> outcomes = [];
        foreach (ErrorFamily family in Enum.GetValues<ErrorFamily>())
        {
            int falseClaims = 0, singledOut = 0;
            long setUps = 0;
            for (int seed = 0; seed < Sites; seed++)
            {
                BiasFindings clean = Review(family, seed, null);
                falseClaims += clean.Claims.Count;
                singledOut += clean.Groups.Any(group => group.StandsOut) ? 1 : 0;
                setUps += clean.SetUps;
            }

            await output.WriteLineAsync(Text(
                $"{family}: {falseClaims} claims on {Sites} clean sites of {setUps / Sites} set-ups, one in {setUps / Math.Max(1, falseClaims)} set-ups{(falseClaims == 0 ? " or more" : "")}; a group singled out on {singledOut}"));
            outcomes.Add(new Outcome(Text($"bias-{family}-false-claims"), Sites / 20.0 / Math.Max(0.1, falseClaims), 1));
            (int held, int stated) = (0, 0);
            foreach (double size in Sizes) (held, stated) = await SizeAsync(output, family, size, held, stated);
            double coverage = (double)held / Math.Max(1, stated);
            await output.WriteLineAsync(Text($"  of {stated} stated 95 % intervals {coverage * 100:0.0} % hold the truth"));
            outcomes.Add(new Outcome(Text($"bias-{family}-coverage-within-93-to-97"), 2 / Math.Max(1e-9, Math.Abs(coverage * 100 - 95)), 1));
        }

        return outcomes;
    }

    private static async Task<(int Held, int Stated)> SizeAsync(TextWriter output, ErrorFamily family, double size, int held, int stated)
    {
        int found = 0, days = 0, other = 0, inSize = 0;
        int heldHere = 0, statedHere = 0;
        Stopwatch watch = Stopwatch.StartNew();
        for (int seed = 0; seed < Sites; seed++)
        {
            bool casing = seed % 2 == 0;
            double direction = seed * 0.7;
            PlantedBias bias = new(seed % 3, casing ? 1 + (seed / 2 % 3) : 0, size * Math.Cos(direction), size * Math.Sin(direction), 5 + (seed % 20), 12 + (seed % 20));
            BiasFindings findings = Review(family, 1000 + seed + (int)(size * 1_000_000), bias);
            BiasClaim? hit = findings.Claims.FirstOrDefault(claim => IsOf(claim, bias));
            other += findings.Claims.Count - (hit is null ? 0 : 1);
            if (hit is null) continue;
            found++;
            if (Math.Abs(StudyPiles.DayOf(hit.FromDay!.Value) - bias.FirstDay) <= 1 && Math.Abs(StudyPiles.DayOf(hit.ToDay!.Value) - bias.LastDay) <= 1) days++;
            if (Math.Abs(hit.SizeMetres - size) <= 0.03) inSize++;
            statedHere += 2;
            if (Math.Abs(hit.Named.Values[0].Value - bias.Forward) <= hit.HalfWidth(hit.Named.Values[0])) heldHere++;
            if (Math.Abs(hit.Named.Values[1].Value - bias.Starboard) <= hit.HalfWidth(hit.Named.Values[1])) heldHere++;
        }

        await output.WriteLineAsync(Text(
            $"  {size * 1000,4:0} mm for 8 days: found and named {found * 100.0 / Sites,5:0.0} %, both days within one {days * 100.0 / Sites,5:0.0} %, size within 30 mm {inSize * 100.0 / Sites,5:0.0} %, intervals that hold {heldHere * 100.0 / Math.Max(1, statedHere),5:0.0} %, other claims {other}, {watch.Elapsed.TotalMilliseconds / Sites:0} ms a site"));
        return (held + heldHere, stated + statedHere);
    }

    private static bool IsOf(BiasClaim claim, PlantedBias bias)
        => claim.Named.Cause.Barge == StudySite.Arms[bias.Barge * 3].Barge
            && (bias.Casing == 0
                ? claim.Named.Cause.Kind == CauseKind.BargeOffset
                : claim.Named.Cause.Kind == CauseKind.CasingOffset && claim.Named.Cause.Casing == bias.Casing);

    private static BiasFindings Review(ErrorFamily family, int seed, PlantedBias? bias)
        => BiasReview.Run(StudyPiles.Of(StudySite.Make(family, seed, bias: bias)), [], StudyPiles.Site);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
