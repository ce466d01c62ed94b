using NodaTime;
using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Ground;
using SiteProgress.Core.Piles;
using SiteProgress.Core.SetUps;
using Xunit;

namespace SiteProgress.Core.Tests.SetUps;

/// <summary>The seabed below a hull of 40 m by 20 m. Worked by hand on plain soundings.</summary>
public sealed class SeabedBelowBargeTests
{
    private static readonly Barge Tern = new("Tern", [new Casing(1, 1.2, 1.3, 25, 0)], new Hull(40, 20));
    private static readonly string[] A = ["A"], AandB = ["A", "B"];

    [Fact]
    public void The_highest_sounding_below_the_hull_counts_with_the_heave_still_to_come()
    {
        SeabedBelowBarge seabed = Of([Survey("pre-survey", new(2026, 3, 1), (0, 19, -12), (9, 0, -11.4), (11, 0, -3), (0, 21, -3))]);

        SeabedBelow below = seabed.At(0, new SiteCoordinate(0, 0), A).ShouldNotBeNull();

        below.LevelMetres.ShouldBe(-11.4 + 2, 1e-9);
        below.From.ShouldBe("survey pre-survey of 2026-03-01, highest sounding below the hull -11.40 m and 2.00 m of heave since");
    }

    [Fact]
    public void The_hull_turns_with_the_heading()
    {
        SeabedBelowBarge seabed = Of([Survey("pre-survey", new(2026, 3, 1), (0, 0, -12), (15, 0, -9), (0, 15, -10))]);

        seabed.At(0, new SiteCoordinate(0, 0), A)!.LevelMetres.ShouldBe(-10 + 2, 1e-9);
        seabed.At(90, new SiteCoordinate(0, 0), A)!.LevelMetres.ShouldBe(-9 + 2, 1e-9);
        // At 45 degrees (10.6, 10.6) lies 15 m ahead, and (10.6, -10.6) 15 m abeam.
        Of([Survey("s", new(2026, 3, 1), (10.6, 10.6, -8))]).At(45, new SiteCoordinate(0, 0), A).ShouldNotBeNull();
        Of([Survey("s", new(2026, 3, 1), (10.6, -10.6, -8))]).At(45, new SiteCoordinate(0, 0), A).ShouldBeNull();
    }

    [Fact]
    public void A_later_survey_goes_before_an_earlier_one_where_it_has_a_sounding()
    {
        SeabedBelowBarge seabed = Of([Survey("pre-survey", new(2026, 3, 1), (0, 0, -12), (100, 0, -12)), Survey("post-survey", new(2026, 6, 1), (0, 0, -9.5))]);

        // By the post-survey all of the heave has been seen.
        seabed.At(0, new SiteCoordinate(0, 0), A)!.LevelMetres.ShouldBe(-9.5, 1e-9);
        seabed.At(0, new SiteCoordinate(100, 0), A)!.LevelMetres.ShouldBe(-10, 1e-9);
    }

    [Fact]
    public void Where_no_survey_reaches_the_stated_level_of_the_highest_zone_counts_and_without_one_nothing_is_known()
    {
        SeabedBelowBarge seabed = Of([Survey("pre-survey", new(2026, 3, 1), (500, 500, -12))], new() { ["A"] = -11, ["B"] = -10.5 });

        seabed.At(0, new SiteCoordinate(0, 0), AandB).ShouldBe(new SeabedBelow(-10.5, "stated for zone A, B"));
        seabed.At(0, new SiteCoordinate(0, 0), ["A", "C"]).ShouldBeNull();
        seabed.At(0, new SiteCoordinate(0, 0), []).ShouldBeNull();
    }

    [Fact]
    public void A_zone_whose_heave_cannot_be_told_makes_a_survey_of_no_use()
    {
        SeabedBelowBarge seabed = Of([Survey("pre-survey", new(2026, 3, 1), (0, 0, -12))], new() { ["U"] = -8 });

        seabed.At(0, new SiteCoordinate(0, 0), ["U"])!.LevelMetres.ShouldBe(-8);
        seabed.At(0, new SiteCoordinate(0, 0), ["A", "U"]).ShouldBeNull();
    }

    /// <summary>Two metres of heave after any survey before May, none after; zone U is unknown.</summary>
    private static SeabedBelowBarge Of(SeabedSurvey[] surveys, Dictionary<string, double>? stated = null)
        => new(Tern, surveys, stated ?? [], (zone, day) => zone == "U" ? null : day < new LocalDate(2026, 5, 1) ? 2 : 0);

    private static SeabedSurvey Survey(string name, LocalDate day, params (double X, double Y, double Level)[] soundings)
        => new(name, day, [.. soundings.Select(one => new Sounding(new SiteCoordinate(one.X, one.Y), one.Level))]);
}
