using NodaTime;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Piles;

namespace SiteProgress.Web.Tests.Piles;

/// <summary>An invented pile record to show.</summary>
internal static class GivenPile
{
    private static readonly PositionDeviation Off = new(0.12, 0.0905, 0.12, 0.0905);

    public static PileRecord With(params CheckResult[] checks) => Record(checks, "A-0001", null);

    public static PileRecord Record(IReadOnlyList<CheckResult> checks, string number, string? remark) => new(
        number,
        PileState.Finding,
        Zone,
        new FrameNames(new LevelDatum("SLD", "Invented."), new GridAxes("X", "Y"), "ETRS89 / UTM zone 32N", 25832, "ETRS89", 1, 90, 0, "Europe/Copenhagen"),
        new DesignOfPile(7, Place(0, 0), 2, -12.4, -30.5, null, remark),
        new AsBuiltPile(
            new JudgedPlace(31, PositionMoment.TouchDown, Place(0.12, 0.0905), Off, 0.03, false, true),
            -12.4, -30.5, 18.1, 2.0, new SandOfPile(71.5, 57.2, 56.86, new SandSource("Pit 1", 0.8, new LocalDate(2026, 2, 1), "Trial 1")), true,
            [31], Instant.FromUtc(2026, 3, 10, 6, 35), new LocalDate(2026, 3, 10), "day", "Tern", 1, "S1"),
        checks,
        [Attempt(number, remark)],
        [],
        new NeighbourNumbers(null, null, null, null),
        40);

    private static PileAttempt Attempt(string number, string? remark)
    {
        RecordedPosition at = new(Frame.SiteGrid, 0.12, 0.0905);
        Instant start = Instant.FromUtc(2026, 3, 10, 6, 0);
        Installation recorded = new(
            "R-1", number, "Tern", 1, "S1", start, start + Duration.FromMinutes(10), start + Duration.FromMinutes(35), at, at, 33, North.CrsGrid,
            -12.4, -30.5, 71.5, null, null, FixType.RtkFixed, 0.03, Outcome.Complete, remark);
        AttemptPosition position = new(Place(0.12, 0.0905), Off);
        return new PileAttempt(
            31, 30, "built.csv", 2, start, "Someone Invented", recorded, position, position, MatchOutcome.Matched, number, number, 0.15, 0.15, null, false, true,
            new LocalDate(2026, 3, 10), "day", 1);
    }

    private static PlaceInFrames Place(double x, double y)
        => new(new SiteCoordinate(x, y), new ProjectedCoordinate(390000 + x, 6161000 + y), new GeographicCoordinate(55.58, 7.25));

    private static Zone Zone { get; } = new(
        "A", "Zone A", Pattern.Square, 2.1, null, 2.0, -12.4, -30.5, TipRule.Level, null, null, 0.7124, 3.1416, "Pit 1",
        new Limits(0.150, 0.300, 0.0, 0.05, 0.57, "Approval 1", "Clause 4.2"), 0.100, [CheckName.Position, CheckName.Top, CheckName.Tip, CheckName.Sand], []);
}
