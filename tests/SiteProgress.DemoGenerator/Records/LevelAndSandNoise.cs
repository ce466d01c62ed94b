namespace SiteProgress.DemoGenerator.Records;

/// <summary>What the level gauge and the sand gauge make of the truth, the casing's inclination (now and then left blank), and
/// what the crew found worth a remark.</summary>
public sealed class LevelAndSandNoise(int seed)
{
    private static readonly string[] Remarks = ["hose change", "swell", "sand wet", "slow through clay layer", "waited for survey"];

    private readonly ChanceSource _chance = ChanceSource.For(seed, "gauges");

    public void Apply(IReadOnlyList<Installation> installations)
    {
        foreach (var each in installations)
        {
            each.RecordedTip = Math.Round(each.Truth.Tip + _chance.Normal(0, 0.02), 2);
            each.RecordedTop = each.Truth.Top is { } top ? Math.Round(top + _chance.Normal(0, 0.02), 2) : null;
            each.RecordedSand = Math.Round(each.Truth.Sand * _chance.Normal(1, 0.006), 1);
            var lean = Math.Round(Math.Min(1.1, Math.Abs(_chance.Normal(0.32, 0.20))), 1);
            each.Inclination = each.Barge.HasInclination && !_chance.Chance(0.01) ? lean : null;
            if (each.Remark.Length == 0 && _chance.Chance(0.012)) each.Remark = Remarks[_chance.Whole(0, Remarks.Length - 1)];
        }
    }
}
