namespace SiteProgress.DemoGenerator.Records;

/// <summary>What the level gauge and the sand gauge make of the truth, and the casing's inclination.</summary>
public sealed class LevelAndSandNoise(int seed)
{
    private readonly ChanceSource _chance = ChanceSource.For(seed, "gauges");

    public void Apply(IReadOnlyList<Installation> installations)
    {
        foreach (var each in installations)
        {
            each.RecordedTip = Math.Round(each.Truth.Tip + _chance.Normal(0, 0.02), 2);
            each.RecordedTop = each.Truth.Top is { } top ? Math.Round(top + _chance.Normal(0, 0.02), 2) : null;
            each.RecordedSand = Math.Round(each.Truth.Sand * _chance.Normal(1, 0.006), 1);
            var lean = Math.Round(Math.Min(1.1, Math.Abs(_chance.Normal(0.32, 0.20))), 1);
            each.Inclination = each.Barge.HasInclination ? lean : null;
        }
    }
}
