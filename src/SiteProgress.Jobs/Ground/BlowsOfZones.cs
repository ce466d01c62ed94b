using SiteProgress.Core.Derivation;
using SiteProgress.Core.Ground;
using SiteProgress.Core.Piles;

namespace SiteProgress.Jobs.Ground;

/// <summary>Penetration tests before and after the piles, by zone and level, beside what the contract asks and what may be expected.</summary>
internal sealed class BlowsOfZones(DerivedSite site, SiteSettings settings, ReplacementReview replacement)
{
    public BlowsView Of(GroundRequest request)
    {
        IReadOnlyList<TestBesidePile> tests = BlowCounts.Beside(PlacedTests.Of(site), [.. site.Piles.Where(pile => settings.FindZone(pile.Judgement.Pile.Zone) is not null).Select(Tested)]);
        Dictionary<string, double> grounds = tests.Where(one => one is { Pile: not null, Moment: TestMoment.Before, Test.Test.GroundLevelMetres: not null })
            .GroupBy(one => one.Pile!.Zone).ToDictionary(zone => zone.Key, zone => zone.Average(one => one.Test.Test.GroundLevelMetres!.Value));
        return new BlowsView(tests, [.. BlowCounts.ByLevel(tests, request.StepMetres).Select(step => View(step, grounds, request))]);
    }

    private TestedPile Tested(DerivedPile pile)
    {
        Zone zone = settings.FindZone(pile.Judgement.Pile.Zone)!;
        return new TestedPile(
            pile.Judgement.Pile.Number, zone.Code, pile.Judgement.Pile.Position, 2 * zone.ReachMetres,
            pile.Judgement.Standing.Count > 0 ? pile.Judgement.Standing[^1].Installation.Recorded.End?.InUtc().Date : null);
    }

    private BlowStepView View(BlowStep step, Dictionary<string, double> grounds, GroundRequest request)
    {
        double? asked = settings.FindZone(step.Zone)?.LotRules?.LeastSptBlows;
        double? ratio = replacement.Zones.FirstOrDefault(zone => zone.Design.Zone == step.Zone) is { } zone ? zone.Mean ?? zone.Design.Ratio : null;
        if (step.Before.Count == 0 || ratio is not (> 0 and < 1) || request is not { UnitWeight: { } weight, FinesPercent: { } fines } || !grounds.TryGetValue(step.Zone, out double ground))
            return new BlowStepView(step, asked, null, null);
        double stress = weight * Math.Max(0, ground - ((step.TopLevelMetres + step.BottomLevelMetres) / 2));
        return new BlowStepView(step, asked, ExpectedBlows.Of(step.Before.Average(), stress, fines, ratio.Value), stress);
    }
}
