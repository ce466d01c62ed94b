namespace SiteProgress.DemoGenerator.Work;

/// <summary>
/// An invented barge. Three casings stand in line across the bow; offsets are forward and to starboard of its reference point, metres.
/// </summary>
/// <param name="Step">Spacing of its casings counted in piles along a row.</param>
/// <param name="Steers">Which point it steers by: the one its system records, or the true one (see README of seed-data).</param>
public sealed record Barge(
    string Name, string Code, int Step, double Forward, double Inner, double Outer, double Length, double Beam,
    DateOnly Arrives, bool HasInclination, string Steers)
{
    public static IReadOnlyList<int> CasingNumbers { get; } = [1, 2, 3];

    public double CasingSpacing => Step * 2.1;

    /// <summary>Offset of a casing (1 port, 2 centre, 3 starboard), metres to starboard.</summary>
    public double StarboardOf(int casing) => (casing - 2) * CasingSpacing;

    public static IReadOnlyList<Barge> All { get; } =
    [
        new("Tern", "TRN", 3, 27.4, 1.20, 1.30, 62, 24, new DateOnly(2026, 3, 2), true, "true"),
        new("Plover", "PLV", 2, 24.8, 1.20, 1.32, 56, 22, new DateOnly(2026, 3, 9), true, "true"),
        new("Curlew", "CUR", 3, 26.1, 1.00, 1.10, 58, 24, new DateOnly(2026, 3, 23), false, "recorded"),
    ];
}
