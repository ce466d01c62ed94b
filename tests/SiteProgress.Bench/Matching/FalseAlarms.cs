using NodaTime;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.DemoGenerator.BiasStudy;
using SiteProgress.DemoGenerator.MatchingStudy;

namespace SiteProgress.Bench.Matching;

/// <summary>What matching says of a site on which every record names its pile.</summary>
/// <param name="Records">Records looked at.</param>
/// <param name="Named">Right records that are given the name of a mistake.</param>
/// <param name="Elsewhere">Right records adopted by another pile than their own.</param>
internal sealed record FalseAlarms(int Records, int Named, int Elsewhere)
{
    private static readonly Zone Field = new(
        "A", "A", Pattern.Square, CleanSite.SpacingMetres, null, 2, 0, -10, TipRule.Level, null, null, 0.7, 3.14, "S", new Limits(0.15, 0.3, 0, 0.05, null, "a", "b"), null, [], []);

    private static readonly SiteSettings Settings = new(
        "clean", "clean", true, "UTC", default, [], 25832, new LevelDatum("d", "d"), new GridAxes("X", "Y"), "A-Z0-9-", 0.03, [], [Field], []);

    /// <summary>Matches one generated site.</summary>
    public static FalseAlarms Of(ErrorFamily family, int seed)
    {
        (IReadOnlyList<CleanPile> piles, IReadOnlyList<CleanRecord> records) = CleanSite.Make(family, seed);
        DesignIndex design = new(piles.Select((pile, index) => new PlannedPile(index, pile.Number, "A", new SiteCoordinate(pile.X, pile.Y), 2, 0, -10, null, null)), Settings);
        IReadOnlyList<InstallationMatch> matches = NumberAndPosition.Settle([.. records.Select(Built)], design);
        return new FalseAlarms(
            records.Count,
            matches.Count(match => match.Outcome != MatchOutcome.Matched),
            matches.Zip(records).Count(one => one.First.Adopted is { } adopted && adopted != one.Second.Number));
    }

    private static LocatedInstallation Built(CleanRecord record, int index)
    {
        Instant begun = Instant.FromUtc(2026, 3, 2, 0, 0).Plus(Duration.FromDays(record.Day)).Plus(Duration.FromMinutes(record.Minute));
        Installation recorded = new(
            record.Identifier, record.Number, record.Barge, record.Casing, record.SetUp, begun, begun.Plus(Duration.FromMinutes(12)), begun.Plus(Duration.FromMinutes(38)),
            null, new RecordedPosition(Frame.SiteGrid, record.X, record.Y), 33, North.CrsGrid, 0, -10, 1, null, null, FixType.RtkFixed, null, Core.Piles.Outcome.Complete, null);
        return new LocatedInstallation(index + 10, 1 + record.Day, 1, recorded, null, new SiteCoordinate(record.X, record.Y));
    }
}
