using SiteProgress.Core.Checks;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Treatment;

/// <summary>A finding as one line: verdict, value, limit and the records the pile stands on. Another line is another finding.</summary>
public static class FindingLine
{
    /// <summary>The line of a check of a pile as it stands.</summary>
    /// <param name="judgement">The pile; null where the design no longer holds it.</param>
    /// <param name="check">The check.</param>
    public static string Of(PileJudgement? judgement, CheckName check)
    {
        if (judgement is null) return "the pile is not in the design";
        if (judgement.Standing.Count == 0) return "nothing stands for the pile";
        CheckResult? result = judgement.Checks.FirstOrDefault(one => one.Check == check);
        if (result is null) return "the check is not asked";
        string stands = SheetFigures.Records(judgement.Standing.Select(part => part.Installation.Sequence));
        return result.Verdict == Verdict.NotJudged
            ? $"not judged: {result.Reason} Stands on record {stands}"
            : $"{SheetFigures.Of(result.Verdict)}: {SheetFigures.Value(result.Value, result.Unit)}, limit {SheetFigures.Value(result.Limit, result.Unit)}; stands on record {stands}";
    }

    /// <summary>True when the check of the pile is not met as it stands.</summary>
    public static bool Stands(PileJudgement? judgement, CheckName check) => Answer(judgement, check) == Verdict.NotMet;

    /// <summary>True when the check of the pile is met as it stands.</summary>
    public static bool IsGone(PileJudgement? judgement, CheckName check) => Answer(judgement, check) == Verdict.Met;

    private static Verdict? Answer(PileJudgement? judgement, CheckName check)
        => judgement?.Checks.FirstOrDefault(one => one.Check == check)?.Verdict;
}
