using SiteProgress.DemoGenerator.Records;
using SiteProgress.DemoGenerator.Site;

namespace SiteProgress.DemoGenerator.Work;

/// <summary>How long one pile takes, how deep it goes, how much sand it swallows and how the attempt ends.</summary>
public sealed class InstallationProcess(int seed)
{
    private readonly ChanceSource _time = ChanceSource.For(seed, "durations");
    private readonly ChanceSource _ground = ChanceSource.For(seed, "ground");
    private readonly ChanceSource _fate = ChanceSource.For(seed, "outcomes");

    /// <summary>One first attempt at a planned pile from a set-up that begins at this moment.</summary>
    public Installation First(Barge barge, int setUp, int casing, PlannedPile pile, double heading, DateTime begin)
    {
        var fate = _fate.Uniform();
        var outcome = fate switch
        {
            < 0.0030 => "refused",
            < 0.0055 => "interrupted",
            < 0.0075 => "abandoned",
            < 0.0092 => "offset by instruction",
            _ => "complete",
        };
        var tip = TipReached(pile.Zone, pile.Position);
        var made = Make(barge, setUp, casing, pile.Zone, pile, heading, begin, pile.Number, tip, 1);
        ApplyOutcome(made, outcome);
        return made;
    }

    /// <summary>The attempt after an interrupted or abandoned one: the first goes on above what stands, the second begins anew.</summary>
    public Installation Again(Installation before, int setUp, double heading, DateTime begin)
    {
        var resumed = before.Outcome == "interrupted";
        var tip = resumed ? before.Truth.Top!.Value - 1.0 - _ground.Between(0, 0.4) : TipReached(before.Zone, before.Planned!.Position);
        var made = Make(before.Barge, setUp, before.Casing, before.Zone, before.Planned, heading, begin, before.Truth.Pile, tip, before.Attempt + 1);
        ApplyOutcome(made, "complete");
        if (resumed) made.StopRate = null;
        made.Remark = resumed ? "second attempt from " + Whole(tip) : "built again";
        return made;
    }

    /// <summary>A trial pile beside the area.</summary>
    public Installation Trial(Barge barge, int setUp, int casing, ZoneDesign zone, string number, double heading, DateTime begin)
    {
        var made = Make(barge, setUp, casing, zone, null, heading, begin, number, (zone.TipLevel ?? -28.2) - _ground.Between(0, 0.3), 1);
        ApplyOutcome(made, "trial");
        return made;
    }

    private Installation Make(
        Barge barge, int setUp, int casing, ZoneDesign zone, PlannedPile? pile, double heading, DateTime begin, string number, double tip, int attempt)
    {
        var start = begin.AddMinutes(_time.Whole(0, 5));
        var penetration = (int)Math.Round((zone.TopLevel - tip) / _time.Between(1.05, 1.75));
        var withdrawal = (int)Math.Round((zone.TopLevel - tip) * _time.Between(1.55, 2.35));
        var endOfPenetration = start.AddMinutes(Math.Max(penetration, 4));
        return new Installation
        {
            Barge = barge,
            Casing = casing,
            SetUp = setUp,
            Zone = zone,
            Planned = pile,
            HeadingOnSite = heading,
            Attempt = attempt,
            Start = start,
            EndOfPenetration = endOfPenetration,
            End = endOfPenetration.AddMinutes(Math.Max(withdrawal, 8)),
            Truth = new Truth { Pile = number, Tip = tip },
        };
    }

    private void ApplyOutcome(Installation made, string outcome)
    {
        var truth = made.Truth;
        made.Outcome = outcome;
        truth.Top = made.Zone.TopLevel + Math.Clamp(_ground.Normal(0.06, 0.07), -0.15, 0.24);
        made.StopRate = made.Zone.StopRate is { } rate ? Math.Round(rate * _ground.Between(0.55, 0.98), 2) : null;
        switch (outcome)
        {
            case "refused":
                truth.Tip += _ground.Between(1.6, 4.8);
                made.Remark = (_fate.Chance(0.5) ? "boulder at " : "hard layer at ") + Whole(truth.Tip);
                break;
            case "interrupted":
                truth.Top = truth.Tip + ((made.Zone.TopLevel - truth.Tip) * _ground.Between(0.3, 0.75));
                made.Remark = _fate.Chance(0.5) ? "hose burst, casing pulled" : "vibrator stopped, casing pulled";
                break;
            case "abandoned":
                truth.Tip += _ground.Between(3.0, 9.0);
                truth.Top = null;
                made.Remark = "casing blocked at " + Whole(truth.Tip) + ", given up";
                break;
            case "offset by instruction":
                made.Remark = "moved by instruction, old anchor block";
                break;
        }

        truth.Sand = SandFor(made);
    }

    /// <summary>Loose sand in the casing, cubic metres: design sand on the longer of the built and the designed length, plus a few per cent.</summary>
    private double SandFor(Installation made)
    {
        var factor = Math.Max(1.010, _ground.Normal(1.055, 0.018)) / SandSourceDesign.FactorOf(made.Zone.SandSource);
        if (made.Outcome == "abandoned") return 4 + (6 * _ground.Uniform());
        var built = made.Truth.Top!.Value - made.Truth.Tip;
        var whole = made.Outcome is "complete" or "offset by instruction" or "trial" && made.Attempt == 1;
        return made.Zone.Section * (whole ? Math.Max(built, made.Zone.PlannedLength) : built) * factor;
    }

    private double TipReached(ZoneDesign zone, PlanePoint at)
    {
        // Where the stop criterion decides, the tip follows the invented firm layer; else the crew goes a little past the design level.
        var firmLayer = -28.6 + (0.7 * Math.Sin(at.First / 47)) + (0.4 * Math.Cos(at.Second / 23));
        return zone.TipLevel is { } level
            ? level - 0.03 - Math.Min(0.6, _ground.Exponential(0.14))
            : Math.Min(firmLayer + _ground.Normal(0, 0.15), zone.TopLevel - zone.LeastLength - 0.3);
    }

    private static string Whole(double level) => Math.Round(level).ToString("0", System.Globalization.CultureInfo.InvariantCulture);
}
