namespace SiteProgress.DemoGenerator.Logs;

/// <summary>The pile a log is made of, as it truly is built. Metres, levels above the level datum, minutes.</summary>
public sealed record LogDesign
{
    public required double CasingInner { get; init; }
    public double CasingLength { get; init; } = 45;
    public required double VolumeFactor { get; init; }
    public required double Diameter { get; init; }
    public required double DesignTop { get; init; }

    /// <summary>Deepest level of the tip.</summary>
    public required double Tip { get; init; }

    /// <summary>End of the last re-drive.</summary>
    public required double Top { get; init; }

    public required double Seabed { get; init; }

    /// <summary>Loose sand from the base on; null: a few per cent more than the design needs.</summary>
    public double? Sand { get; init; }

    public double? PenetrationMinutes { get; init; }
    public double? BuildingMinutes { get; init; }

    /// <summary>Water level at the first sample and its change an hour.</summary>
    public double Water { get; init; }
    public double WaterRise { get; init; }

    /// <summary>Inclination of the casing, degrees.</summary>
    public double Inclination { get; init; } = 0.3;

    public IReadOnlyList<PlannedHangUp> HangUps { get; init; } = [];

    /// <summary>Re-drive below a hang-up and build anew from there.</summary>
    public bool Repairs { get; init; }

    /// <summary>Share of sand missing over one and a half metres around a level: a thin place.</summary>
    public (double Level, double Ratio)? Thin { get; init; }

    public int BaseStrokes { get; init; }
    public bool ValveStaysClosed { get; init; }
    public bool AirFails { get; init; }
    public bool SoilEnters { get; init; }

    public double Area => Math.PI / 4 * CasingInner * CasingInner;
}

/// <summary>A hang-up to plant: in the withdrawal that passes this share of the pile's length, over this rise of the casing.</summary>
public sealed record PlannedHangUp(double Share, double Length);

/// <summary>A hang-up as it truly was.</summary>
public sealed record TrueHangUp(double FromLevel, double Length, bool Closed);

/// <summary>What a log truly shows.</summary>
public sealed record LogTruth
{
    /// <summary>Bottoms from the base on; one cycle lies between two.</summary>
    public required IReadOnlyList<double> Bottoms { get; init; }

    /// <summary>Loose sand left in each cycle, cubic metres.</summary>
    public required IReadOnlyList<double> CycleSand { get; init; }

    public required double PullOutSand { get; init; }

    /// <summary>Tip level at which sand stopped leaving in the pull-out.</summary>
    public required double SandStopped { get; init; }

    public required IReadOnlyList<TrueHangUp> HangUps { get; init; }

    /// <summary>The final pile: from, to, loose sand.</summary>
    public required IReadOnlyList<(double From, double To, double Sand)> Segments { get; init; }

    public required double Charged { get; init; }

    public double Sand => CycleSand.Sum() + PullOutSand;

    /// <summary>Sand of one metre of the final pile, loose.</summary>
    public double Between(double from, double to) => Segments.Sum(segment =>
        Math.Max(0, Math.Min(to, segment.To) - Math.Max(from, segment.From)) / (segment.To - segment.From) * segment.Sand);

    /// <summary>Least sand of any sliding metre between base and cut-off, found by looking every centimetre and at every end.</summary>
    public double LeastMetre(double cutOff)
    {
        var bottom = Bottoms.Min();
        var least = double.PositiveInfinity;
        foreach (var end in Segments.SelectMany(segment => new[] { segment.To, segment.To - 1, segment.From, segment.From - 1 }).Append(bottom).Append(cutOff - 1))
            if (end >= bottom && end + 1 <= cutOff + 1e-9) least = Math.Min(least, Between(end, end + 1));
        return least;
    }
}
