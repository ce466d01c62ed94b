using SiteProgress.Core.Checks;
using SiteProgress.Core.Ground;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Treatment;

/// <summary>A lot or a selection of piles before it is decided: which piles are ready, which stay out and why, and the lot rules.</summary>
/// <param name="Ready">Piles that can be accepted together, each with the hash of its sheet.</param>
/// <param name="LeftOut">Piles that stay out.</param>
/// <param name="Rules">Every lot rule of every zone with its numbers.</param>
/// <param name="Sheet">All of it as a sheet; its hash is what a signature keeps.</param>
public sealed record LotSummary(
    IReadOnlyList<SignedPile> Ready, IReadOnlyList<LeftOutPile> LeftOut, IReadOnlyList<LotRuleResult> Rules, Sheet Sheet)
{
    /// <summary>True when no lot rule is found broken and none is left unjudged.</summary>
    public bool RulesMet => Rules.All(rule => rule.Verdict == Verdict.Met);

    /// <summary>Sums up piles.</summary>
    /// <param name="title">What they are: a lot, a selection.</param>
    /// <param name="piles">Pile numbers.</param>
    /// <param name="treated">The site.</param>
    /// <param name="settings">Settings in force.</param>
    /// <param name="tests">Penetration tests of the site.</param>
    public static LotSummary Of(string title, IReadOnlyList<string> piles, TreatedSite treated, SiteSettings settings, IReadOnlyList<PlacedTest> tests)
    {
        ArgumentNullException.ThrowIfNull(piles);
        ArgumentNullException.ThrowIfNull(treated);
        ArgumentNullException.ThrowIfNull(settings);
        List<SignedPile> ready = [];
        List<LeftOutPile> leftOut = [];
        List<SheetLine> lines = [new("piles", SheetFigures.Whole(piles.Count))];
        foreach (string number in piles.Order(StringComparer.Ordinal))
        {
            PileReadiness readiness = treated.ReadinessOf(number);
            if (readiness.Readiness == Readiness.Ready)
            {
                ready.Add(new SignedPile(number, treated.SheetOf(number)!.Hash));
                lines.Add(new(number, ready[^1].Sheet));
            }
            else
            {
                leftOut.Add(new LeftOutPile(number, readiness.Readiness, readiness.Reason));
                lines.Add(new(number, "stays out. " + readiness.Reason));
            }
        }

        PileJudgement[] standing = [.. piles.Select(treated.Judged).OfType<PileJudgement>().Where(pile => pile.Standing.Count > 0)];
        LotRuleResult[] rules = [.. standing.GroupBy(pile => pile.Pile.Zone, StringComparer.Ordinal).OrderBy(zone => zone.Key, StringComparer.Ordinal)
            .SelectMany(zone => LotRulesJudge.Judge(settings.FindZone(zone.Key)!, [.. zone], tests))];
        lines.AddRange(rules.Select(rule => new SheetLine(
            $"zone {rule.Zone}, {rule.Rule}",
            $"{SheetFigures.Of(rule.Verdict)}: {SheetFigures.Value(rule.Value, rule.Unit)}, limit {SheetFigures.Value(rule.Limit, rule.Unit)}. {rule.Reason}")));
        return new LotSummary(ready, leftOut, rules, new Sheet(title, lines));
    }
}

/// <summary>A pile that stays out of an acceptance together.</summary>
/// <param name="Number">Pile number.</param>
/// <param name="Readiness">Whether it can be accepted by itself.</param>
/// <param name="Reason">Why it stays out.</param>
public sealed record LeftOutPile(string Number, Readiness Readiness, string Reason);

/// <summary>A lot rule with the numbers it was judged on.</summary>
/// <param name="Zone">Zone whose rule it is.</param>
/// <param name="Rule">What it asks.</param>
/// <param name="Verdict">The answer; not judged where data is missing.</param>
/// <param name="Value">The unrounded number that was compared.</param>
/// <param name="Limit">The limit.</param>
/// <param name="Unit">Unit of both: m, ratio, blows.</param>
/// <param name="Reason">What was compared, over how many piles; or what is missing.</param>
public sealed record LotRuleResult(string Zone, string Rule, Verdict Verdict, double? Value, double? Limit, string Unit, string Reason);
