namespace SiteProgress.DemoGenerator.Logs;

/// <summary>What gauges and logger make of the truth.</summary>
public sealed record LogGauges
{
    public double Spacing { get; init; } = 1;
    public double SpacingJitter { get; init; }
    public double TipNoise { get; init; } = 0.015;
    public double SwellTip { get; init; }
    public double SwellPeriod { get; init; } = 8;
    public double SandNoise { get; init; } = 0.06;

    /// <summary>Share of the noise before that stays in the next sample of a second later.</summary>
    public double SandMemory { get; init; }

    /// <summary>Drift of the sand gauge's zero over the log, metres.</summary>
    public double SandDrift { get; init; }

    public double SpikeShare { get; init; }

    /// <summary>First-order lag of the sand gauge, seconds.</summary>
    public double Lag { get; init; }

    public double Low { get; init; } = double.NegativeInfinity;
    public double High { get; init; } = double.PositiveInfinity;
    public double TipQuantum { get; init; } = 0.01;
    public double SandQuantum { get; init; } = 0.01;
    public int DropOuts { get; init; }
    public double LongestDropOut { get; init; } = 30;
    public double ChargeNoise { get; init; }

    /// <summary>1 height above tip, 2 distance from the casing's top, 3 level.</summary>
    public int SandMeasure { get; init; } = 1;

    /// <summary>1 level, 2 depth below water.</summary>
    public int TipMeasure { get; init; } = 1;

    /// <summary>The families of the study: white noise; swell, memory, drift and spikes; lag, dead zones, coarse digits and drop-outs.</summary>
    public static LogGauges Family(string family, ChanceSource chance) => family switch
    {
        "white" => new LogGauges
        {
            Spacing = chance.Chance(0.3) ? 0.5 : 1,
            TipNoise = chance.Between(0.005, 0.03),
            SandNoise = chance.Between(0.03, 0.12),
            ChargeNoise = 0.005,
            SandMeasure = chance.Whole(1, 3),
            TipMeasure = chance.Whole(1, 2),
        },
        "swell" => new LogGauges
        {
            Spacing = chance.Chance(0.3) ? 0.2 : chance.Chance(0.5) ? 0.5 : 1,
            TipNoise = 0.01,
            SwellTip = chance.Between(0.01, 0.05),
            SwellPeriod = chance.Between(5, 10),
            SandNoise = chance.Between(0.03, 0.09),
            SandMemory = chance.Between(0.2, 0.6),
            SandDrift = chance.Between(-0.2, 0.2),
            SpikeShare = chance.Between(0, 0.003),
            ChargeNoise = 0.01,
            SandMeasure = chance.Whole(1, 2),
        },
        "gauge" => new LogGauges
        {
            Spacing = chance.Between(1, 2.5),
            SpacingJitter = 0.25,
            TipNoise = chance.Between(0.005, 0.02),
            SandNoise = chance.Between(0.01, 0.05),
            Lag = chance.Between(1, 10),
            Low = chance.Chance(0.5) ? chance.Between(0.6, 1.4) : double.NegativeInfinity,
            High = chance.Chance(0.5) ? chance.Between(17, 20) : double.PositiveInfinity,
            TipQuantum = 0.02,
            SandQuantum = 0.05,
            DropOuts = chance.Whole(0, 3),
            ChargeNoise = 0.007,
        },
        _ => throw new ArgumentOutOfRangeException(nameof(family), family, "white, swell or gauge"),
    };

    public static IReadOnlyList<string> Families { get; } = ["white", "swell", "gauge"];
}
