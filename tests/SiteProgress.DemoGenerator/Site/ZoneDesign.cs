namespace SiteProgress.DemoGenerator.Site;

/// <summary>The design of one zone. Metres; levels above the site's level datum, up positive.</summary>
public sealed record ZoneDesign(
    string Code, string Name, string Pattern, double Spacing, double? SecondSpacing, double Diameter,
    double TopLevel, double? TipLevel, string TipRule, double? StopRate, double LeastLength, string SandSource,
    double RadialLimit, double RadialAlert, double Seabed)
{
    public const double TopLimit = 0.30;
    public const double TipShortLimit = 0.20;
    public const double SandShortLimit = 0.05;
    public const double InclinationLimit = 1.2;

    /// <summary>Shares of design diameter and of a metre's sand that may be missing where there is a log, and the longest gap.</summary>
    public const double DiameterShortLimit = 0.1, MetreSandShortLimit = 0.2, GapLimit = 0.3;

    /// <summary>Ground area of one pile, square metres.</summary>
    public double AreaPerPile => Pattern switch
    {
        "square" => Spacing * Spacing,
        "rectangular" => Spacing * SecondSpacing!.Value,
        _ => Math.Sqrt(3) / 2 * Spacing * Spacing,
    };

    /// <summary>Distance from row to row, metres.</summary>
    public double RowPitch => Pattern switch
    {
        "square" => Spacing,
        "rectangular" => SecondSpacing!.Value,
        _ => Math.Sqrt(3) / 2 * Spacing,
    };

    /// <summary>Pile section, square metres; also the design sand in the pile per metre.</summary>
    public double Section => Math.PI / 4 * Diameter * Diameter;

    public double ReplacementRatio => Section / AreaPerPile;

    /// <summary>Length on which the design sand is counted where the schedule gives no tip level: the least length.</summary>
    public double PlannedLength => TipLevel is { } tip ? TopLevel - tip : LeastLength;

    public static IReadOnlyList<ZoneDesign> All { get; } =
    [
        new("A", "Trunk, seaward toe", "square", 2.1, null, 2.0, -12.5, -28.0, "level", null, 15.0, "Long Shoal", 0.15, 0.10, -12.1),
        new("B", "Trunk, core", "rectangular", 2.1, 2.6, 1.8, -13.0, null, "criterion", 0.5, 14.0, "Long Shoal", 0.18, 0.12, -12.6),
        new("C", "Roundhead", "triangular", 2.1, null, 1.6, -13.5, -30.0, "both", 0.5, 15.0, "Outer Ridge", 0.15, 0.10, -13.2),
    ];
}

/// <summary>A sand source and its volume-change factor C: volume in the pile divided by loose volume in the casing.</summary>
public sealed record SandSourceDesign(string Name, double VolumeChangeFactor, string ApprovedOn, string Evidence)
{
    public static IReadOnlyList<SandSourceDesign> All { get; } =
    [
        new("Long Shoal", 0.82, "2026-02-20", "Trial TR-1, six trial piles, report SH-TR-01"),
        new("Outer Ridge", 0.85, "2026-03-12", "Density tests on barge loads, report SH-TR-02"),
    ];

    public static double FactorOf(string name) => All.Single(source => source.Name == name).VolumeChangeFactor;
}
