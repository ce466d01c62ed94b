using SiteProgress.Core.Checks;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Ground;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Treatment;

/// <summary>Judges the lot rules of one zone over the piles of a lot that stand in it.</summary>
public static class LotRulesJudge
{
    /// <summary>Judges every rule the zone's contract sets.</summary>
    /// <param name="zone">The zone with its rules.</param>
    /// <param name="piles">Piles of the lot that stand in it.</param>
    /// <param name="tests">Penetration tests of the site.</param>
    /// <returns>A result for each rule; one that is not judged where the contract sets no rules.</returns>
    public static IReadOnlyList<LotRuleResult> Judge(Zone zone, IReadOnlyList<PileJudgement> piles, IReadOnlyList<PlacedTest> tests)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(piles);
        ArgumentNullException.ThrowIfNull(tests);
        if (zone.LotRules is not { } rules)
        {
            return [new(zone.Code, "lot rules", Verdict.NotJudged, null, null, "ratio", "The settings hold no lot rules for this zone.")];
        }

        List<LotRuleResult> results = [];
        if (rules.LeastShareWithinRatio is { } share) results.Add(Share(zone, rules, share, piles));
        if (rules.AbsoluteRadialMetres is { } absolute) results.Add(Absolute(zone, rules, absolute, piles));
        if (rules.LeastMeanSandRatio is { } sand) results.Add(Mean(zone, rules, "mean sand in pile to design", sand, piles, SandRatio, "sand or length"));
        if (rules.LeastMeanReplacementRatio is { } ratio) results.Add(Mean(zone, rules, "mean as-built replacement ratio a_s", ratio, piles, pile => ReplacementRatio(zone, pile), "sand or length"));
        if (rules.LeastSptBlows is { } blows) results.Add(new SptRule(zone, piles).Judge(blows, rules.Source, tests));
        return results;
    }

    /// <summary>
    /// Replacement ratio of one pile: its mean section, sand in pile over length, divided by the ground that belongs to it in
    /// the pattern: s² square, s1 s2 rectangular, s² √3/2 triangular. (Plane geometry.)
    /// </summary>
    /// <returns>The ratio; null where sand or length is not on record.</returns>
    public static double? ReplacementRatio(Zone zone, PileJudgement pile)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(pile);
        double ground = zone.Pattern switch
        {
            Pattern.Rectangular => zone.SpacingMetres * (zone.SecondSpacingMetres ?? zone.SpacingMetres),
            Pattern.Triangular => zone.SpacingMetres * zone.SpacingMetres * Math.Sqrt(3) / 2,
            _ => zone.SpacingMetres * zone.SpacingMetres,
        };
        return pile.LengthMetres is > 0 and { } length ? pile.Sand?.InPile / length / ground : null;
    }

    private static double? SandRatio(PileJudgement pile) => pile.Sand is { DesignInPile: > 0 } sand ? sand.InPile / sand.DesignInPile : null;

    private static LotRuleResult Share(Zone zone, LotRules rules, double least, IReadOnlyList<PileJudgement> piles)
    {
        int within = piles.Count(pile => pile.Position is { Comparable: true } at && Limit(zone, pile).Hold(at.Deviation).Answer.IsMet);
        int unknown = piles.Count(pile => pile.Position is not { Comparable: true });
        PositionLimit limit = ContractLimits.Position(zone, zone.DesignDiameterMetres);

        // A pile whose position is not judged may be within or not: the rule is judged only where both give the same answer.
        Verdict verdict =
            AgainstLimit.IsAtLeast((double)within / piles.Count, least) ? Verdict.Met
            : AgainstLimit.IsAtLeast((double)(within + unknown) / piles.Count, least) ? Verdict.NotJudged
            : Verdict.NotMet;
        return new(
            zone.Code, limit.SetsAxes ? "share within the limits of position" : "share within the radial limit", verdict, piles.Count > unknown ? (double)within / (piles.Count - unknown) : null, least, "ratio",
            $"{SheetFigures.Whole(within)} of {SheetFigures.Whole(piles.Count - unknown)} judged piles within {Words(zone, limit)}, {SheetFigures.Whole(unknown)} not judged; >= limit ({rules.Source}).");
    }

    private static PositionLimit Limit(Zone zone, PileJudgement pile) => ContractLimits.Position(zone, pile.Pile.DiameterMetres);

    private static string Words(Zone zone, PositionLimit limit) => string.Join(" and ", new[]
    {
        limit.SetsRadial ? zone.Limits.RadialDiameterRatio is null ? SheetFigures.Metres(limit.RadialMetres) : "the radial limit of each" : null,
        limit.AlongMetres is { } along ? $"{SheetFigures.Metres(along)} along" : null,
        limit.AcrossMetres is { } across ? $"{SheetFigures.Metres(across)} across" : null,
    }.OfType<string>());

    private static LotRuleResult Absolute(Zone zone, LotRules rules, double most, IReadOnlyList<PileJudgement> piles)
    {
        double[] radial = [.. piles.Where(pile => pile.Position is { Comparable: true }).Select(Farthest)];
        int unknown = piles.Count - radial.Length;
        double? largest = radial.Length > 0 ? radial.Max() : null;
        Verdict verdict =
            largest is { } one && !AgainstLimit.IsAtMost(one, most) ? Verdict.NotMet
            : unknown > 0 || largest is null ? Verdict.NotJudged
            : Verdict.Met;
        return new(
            zone.Code, "largest radial deviation", verdict, largest, most, "m",
            $"Largest of {SheetFigures.Whole(radial.Length)} judged piles, {SheetFigures.Whole(unknown)} not judged; <= limit ({rules.Source}).");
    }

    /// <summary>
    /// How far any position of what stands is off, metres. Where limits along the axes are set, the position a pile is judged by is
    /// the one that takes up most of them, and another of its positions may be farther off.
    /// </summary>
    private static double Farthest(PileJudgement pile) => pile.Standing
        .SelectMany(part => new[] { part.Installation.TouchDown, part.Installation.AtEndOfPenetration })
        .OfType<SiteCoordinate>()
        .Max(pile.Pile.Position.DistanceToMetres);

    private static LotRuleResult Mean(
        Zone zone, LotRules rules, string rule, double least, IReadOnlyList<PileJudgement> piles, Func<PileJudgement, double?> figure, string missing)
    {
        double[] known = [.. piles.Select(figure).OfType<double>()];
        int unknown = piles.Count - known.Length;
        double? mean = known.Length > 0 ? known.Average() : null;
        Verdict verdict = unknown > 0 || mean is null ? Verdict.NotJudged : AgainstLimit.IsAtLeast(mean.Value, least) ? Verdict.Met : Verdict.NotMet;
        return new(
            zone.Code, rule, verdict, mean, least, "ratio",
            unknown > 0
                ? $"{SheetFigures.Whole(unknown)} piles have no {missing} on record ({rules.Source})."
                : $"Mean over {SheetFigures.Whole(known.Length)} piles; >= limit ({rules.Source}).");
    }
}
