using NodaTime;
using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Levels;
using SiteProgress.Core.Piles;
using Xunit;

namespace SiteProgress.Core.Tests.Levels;

/// <summary>Recorded depths made levels: every way, and everything that may be missing on it.</summary>
public sealed class DepthsToLevelsTests
{
    private static readonly Instant From = Instant.FromUtc(2026, 3, 10, 8, 0);

    // Water 0.50 at 08:00, 1.10 at 09:00, read every 30 minutes: 0.50, 0.80, 1.10.
    private static readonly WaterLevelSeries Water = WaterLevelSeries.Of("Quay", [new WaterLevels("Quay", From, [[0, 0.5], [1800, 0.8], [3600, 1.1]])], []);
    private static readonly Calibration Hull = new("Tern", null, Instant.FromUtc(2026, 3, 1, 0, 0), "Docking survey", DeckAboveKeelMetres: 5.0, ForeMarkMetres: 30, AftMarkMetres: -25);
    private static readonly Calibration Casing = new("Tern", 1, Instant.FromUtc(2026, 3, 1, 0, 0), "Report 7", ForwardMetres: 20, StarboardMetres: 6);
    private static readonly LevelContext All = new(Water, Hull, Casing, new HeightModel(41.0, 0.0001, 0, "Fit to three marks"), new SiteCoordinate(100, 0));

    [Fact]
    public void Tip_and_top_take_the_water_level_of_their_own_moment()
    {
        // Deepest at 08:15: 0.65; left the pile at 08:45: 0.95.
        DerivedLevels levels = Of(new RecordedDepths(DepthBelow.Water, 31.15, 13.35)).ShouldNotBeNull();

        levels.Tip!.LevelMetres!.Value.ShouldBe(0.65 - 31.15, 1e-9);
        levels.Top!.LevelMetres!.Value.ShouldBe(0.95 - 13.35, 1e-9);
        levels.Tip.Inputs.Select(input => input.Name).ShouldBe(["water level", "depth of the tip below water"]);
        levels.Tip.Inputs[0].Source.ShouldContain("gauge Quay");
    }

    [Fact]
    public void Below_deck_with_draught_list_and_trim()
    {
        // Freeboard 2.620759 as worked by hand in LevelFormulasTests; water 0.65: 0.65 + 2.620759 - 33.80 = -30.529241
        DerivedLevels levels = Of(new RecordedDepths(DepthBelow.Deck, 33.80, null, null, 2.10, null, null, 1, 0.5))!;

        levels.Tip!.LevelMetres!.Value.ShouldBe(-30.529241, 5e-6);
        levels.Top.ShouldBeNull();
        levels.Tip.Inputs.Single(input => input.Name == "freeboard at the casing").Value.ShouldBe(2.620759, 5e-6);
    }

    [Fact]
    public void Below_deck_with_readings_of_the_draught_marks()
    {
        // Draught 2.10 and trim arctan 0.01 (sin 0.0099995): 5.00 - 2.10 - 20 x 0.0099995 = 2.70001
        DerivedLevels levels = Of(new RecordedDepths(DepthBelow.Deck, 33.80, null, null, null, 2.40, 1.85, 0))!;

        levels.Tip!.LevelMetres!.Value.ShouldBe(0.65 + 2.70001 - 33.80, 1e-5);
    }

    [Fact]
    public void A_stated_freeboard_needs_no_calibration()
        => DepthsToLevels.Of(Built(new RecordedDepths(DepthBelow.Deck, 33.80, null, 2.5)), All with { Barge = null, Casing = null })!
            .Tip!.LevelMetres!.Value.ShouldBe(0.65 + 2.5 - 33.80, 1e-9);

    [Fact]
    public void From_the_antenna_by_the_height_model_at_the_casing()
        // Datum above the ellipsoid at X 100: 41.0 + 0.01 = 41.01; 58.412 - 41.01 - 47.20 = -29.798
        => Of(new RecordedDepths(DepthBelow.Antenna, 47.20, null, AntennaHeightAtTipMetres: 58.412))!.Tip!.LevelMetres!.Value.ShouldBe(-29.798, 1e-9);

    [Theory]
    [InlineData("water", "has no observed water levels")]
    [InlineData("gap", "none around")]
    [InlineData("time", "no time of the end of penetration")]
    [InlineData("draught", "neither freeboard nor draught")]
    [InlineData("list", "neither freeboard nor list")]
    [InlineData("trim", "neither freeboard nor trim")]
    [InlineData("hull", "deck above the keel")]
    [InlineData("casing", "casing's offset")]
    [InlineData("marks", "where the marks stand")]
    [InlineData("height", "no height of the antenna")]
    [InlineData("model", "no height model")]
    [InlineData("position", "No position")]
    public void What_is_missing_leaves_the_level_out_and_is_named(string without, string said)
    {
        RecordedDepths water = new(DepthBelow.Water, 30, null);
        RecordedDepths deck = new(DepthBelow.Deck, 30, null, null, 2.1, null, null, 1, 0.5);
        RecordedDepths antenna = new(DepthBelow.Antenna, 47.2, null, AntennaHeightAtTipMetres: 58);
        (RecordedDepths depths, LevelContext context) = without switch
        {
            "water" => (water, All with { Water = null }),
            "gap" => (water, All with { Water = WaterLevelSeries.Of("Quay", [new WaterLevels("Quay", From, [[0, 0.5]])], []) }),
            "time" => (water, All),
            "draught" => (deck with { DraughtMetres = null }, All),
            "list" => (deck with { ListDegrees = null }, All),
            "trim" => (deck with { TrimDegrees = null }, All),
            "hull" => (deck, All with { Barge = null }),
            "casing" => (deck, All with { Casing = null }),
            "marks" => (deck with { DraughtMetres = null, ForeDraughtMetres = 2.4, AftDraughtMetres = 1.85 }, All with { Barge = Hull with { AftMarkMetres = null } }),
            "height" => (antenna with { AntennaHeightAtTipMetres = null }, All),
            "model" => (antenna, All with { HeightModel = null }),
            _ => (antenna, All with { Position = null }),
        };
        Installation built = Built(depths);

        DerivedLevel tip = DepthsToLevels.Of(without == "time" ? built with { EndOfPenetration = null } : built, context)!.Tip!;

        tip.LevelMetres.ShouldBeNull();
        tip.Missing.ShouldNotBeNull().ShouldContain(said);
    }

    [Fact]
    public void A_record_without_depths_has_no_derived_levels() => DepthsToLevels.Of(Invented.Built("A-0001", 0, 0), All).ShouldBeNull();

    private static DerivedLevels? Of(RecordedDepths depths) => DepthsToLevels.Of(Built(depths), All);

    private static Installation Built(RecordedDepths depths) => Invented.Built("A-0001", 100, 0) with { Depths = depths };
}
