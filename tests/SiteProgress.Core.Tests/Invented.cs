using NodaTime;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Tests;

/// <summary>A small invented site for tests: one square zone of 2.1 m, grid axes along the CRS axes.</summary>
internal static class Invented
{
    public static readonly GridRotation NoTurn = new(1, 0, 0, 1);

    public static readonly Zone ZoneA = new(
        "A", "Zone A", Pattern.Square, 2.1, null, 2.0, -12.4, -30.5, TipRule.Level, null, null, 0.7124, 3.1416, "Pit 1",
        new Limits(0.150, 0.300, 0.0, 0.05, 0.57, "Approval 1", "Clause 4.2"), 0.100,
        [CheckName.Position, CheckName.Top, CheckName.Tip, CheckName.Sand], []);

    public static readonly SiteSettings Settings = new(
        "test-site", "Invented test site", true, "Europe/Copenhagen", new LocalTime(6, 0),
        [new Shift("day", new LocalTime(6, 0)), new Shift("night", new LocalTime(18, 0))],
        25832, new LevelDatum("SLD", "Invented datum"), new GridAxes("X", "Y"), "A-Z0-9-", 0.03,
        [new SandSource("Pit 1", 0.8, new LocalDate(2026, 2, 1), "Trial 1")],
        [ZoneA],
        [new Barge("Tern", [new Casing(1, 1.2, 1.25, 20, 0), new Casing(2, 1.2, 1.25, 20, 2.1)], null)]);

    public static JudgingContract Contract(Zone? zone = null) => new(zone ?? ZoneA, NoTurn, 0.8, "Pit 1", 0.03);

    public static PlannedPile Planned(string number, double x, double y, double? leastLength = null)
        => new(1, number, "A", new SiteCoordinate(x, y), 2.0, -12.4, -30.5, leastLength, null);

    public static Installation Built(string number, double x, double y) => new(
        "R-" + number, number, "Tern", 1, "S1",
        Instant.FromUtc(2026, 3, 10, 8, 0), Instant.FromUtc(2026, 3, 10, 8, 15), Instant.FromUtc(2026, 3, 10, 8, 45),
        new RecordedPosition(Frame.SiteGrid, x, y), new RecordedPosition(Frame.SiteGrid, x, y),
        33, North.CrsGrid, -12.4, -30.5, 71.5, 0.3, null, FixType.RtkFixed, 0.03, Outcome.Complete, null);

    public static LocatedInstallation Located(Installation recorded, long sequence = 10) => new(
        sequence, 5, 1, recorded,
        recorded.TouchDown is { } touchDown ? new SiteCoordinate(touchDown.First, touchDown.Second) : null,
        recorded.AtEndOfPenetration is { } deepest ? new SiteCoordinate(deepest.First, deepest.Second) : null);
}
