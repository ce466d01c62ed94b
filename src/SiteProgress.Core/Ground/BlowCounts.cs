using NodaTime;
using SiteProgress.Core.Coordinates;

namespace SiteProgress.Core.Ground;

/// <summary>When a penetration test was made, as the piles around its borehole tell.</summary>
public enum TestMoment
{
    /// <summary>Before the nearest pile was built, or where it is not built.</summary>
    Before = 1,

    /// <summary>On a day after the nearest pile was built.</summary>
    After = 2,

    /// <summary>On the day itself, or the day is not on record.</summary>
    NotKnown = 3,
}

/// <summary>A planned pile as a test beside it sees it.</summary>
/// <param name="Number">Pile number.</param>
/// <param name="Zone">Zone.</param>
/// <param name="At">Where, site grid.</param>
/// <param name="ReachMetres">How far from it a borehole speaks for it, metres.</param>
/// <param name="BuiltOn">Day (UTC) on which it was finished; null where it does not stand.</param>
public sealed record TestedPile(string Number, string Zone, SiteCoordinate At, double ReachMetres, LocalDate? BuiltOn);

/// <summary>A test with the pile it stands by.</summary>
/// <param name="Test">The test.</param>
/// <param name="Pile">The nearest planned pile whose reach it is in; null where there is none.</param>
/// <param name="Moment">Before or after that pile.</param>
public sealed record TestBesidePile(PlacedTest Test, TestedPile? Pile, TestMoment Moment);

/// <summary>Blow counts of a zone within a step of level.</summary>
/// <param name="Zone">Zone.</param>
/// <param name="TopLevelMetres">Upper end of the step, metres above the level datum.</param>
/// <param name="BottomLevelMetres">Lower end; it belongs to the step below.</param>
/// <param name="Before">N of the tests before.</param>
/// <param name="After">N of the tests after.</param>
public sealed record BlowStep(string Zone, double TopLevelMetres, double BottomLevelMetres, IReadOnlyList<int> Before, IReadOnlyList<int> After);

/// <summary>Standard penetration tests before and after the piles, by zone and level. N is taken as reported. (Common practice, no source.)</summary>
public static class BlowCounts
{
    /// <summary>Finds for each test its pile and whether it came before or after it.</summary>
    /// <param name="tests">The tests.</param>
    /// <param name="piles">All planned piles.</param>
    public static IReadOnlyList<TestBesidePile> Beside(IReadOnlyList<PlacedTest> tests, IReadOnlyList<TestedPile> piles)
    {
        ArgumentNullException.ThrowIfNull(tests);
        ArgumentNullException.ThrowIfNull(piles);
        // The tests of a borehole share its place, and a site has tens of boreholes: each asks all piles once.
        Dictionary<SiteCoordinate, TestedPile?> nearest = tests.Select(test => test.At).OfType<SiteCoordinate>().Distinct().ToDictionary(at => at, at => Nearest(at, piles));
        return [.. tests.Select(test => test.At is { } at && nearest[at] is { } pile ? new TestBesidePile(test, pile, MomentOf(test.Test.TestedOn, pile.BuiltOn)) : new TestBesidePile(test, null, TestMoment.NotKnown))];
    }

    /// <summary>Puts the tests together by zone and level; those without a zone, a moment, a level or an N are left out.</summary>
    /// <param name="tests">Tests with their piles.</param>
    /// <param name="stepMetres">Height of a step, metres.</param>
    public static IReadOnlyList<BlowStep> ByLevel(IEnumerable<TestBesidePile> tests, double stepMetres)
    {
        ArgumentNullException.ThrowIfNull(tests);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(stepMetres);
        return [.. tests.Where(one => one is { Pile: not null, Moment: not TestMoment.NotKnown, Test: { LevelMetres: not null, Test.Blows: not null } })
            .GroupBy(one => (one.Pile!.Zone, Step: Math.Floor(one.Test.LevelMetres!.Value / stepMetres)))
            .OrderBy(step => step.Key.Zone, StringComparer.Ordinal).ThenByDescending(step => step.Key.Step)
            .Select(step => new BlowStep(step.Key.Zone, (step.Key.Step + 1) * stepMetres, step.Key.Step * stepMetres, Of(step, TestMoment.Before), Of(step, TestMoment.After)))];

        static int[] Of(IEnumerable<TestBesidePile> step, TestMoment moment) => [.. step.Where(one => one.Moment == moment).Select(one => one.Test.Test.Blows!.Value).Order()];
    }

    private static TestedPile? Nearest(SiteCoordinate at, IReadOnlyList<TestedPile> piles)
        => piles.Count > 0 && piles.MinBy(pile => pile.At.DistanceToMetres(at)) is { } pile && pile.At.DistanceToMetres(at) <= pile.ReachMetres ? pile : null;

    private static TestMoment MomentOf(LocalDate? testedOn, LocalDate? builtOn) => (testedOn, builtOn) switch
    {
        (_, null) => TestMoment.Before,
        (null, _) => TestMoment.NotKnown,
        ({ } tested, { } built) => tested > built ? TestMoment.After : tested < built ? TestMoment.Before : TestMoment.NotKnown,
    };
}
