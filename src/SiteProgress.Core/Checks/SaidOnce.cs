namespace SiteProgress.Core.Checks;

/// <summary>
/// Keeps the same sentence, and the same answer that nothing can be judged, once for all piles of a zone: on a large site the words
/// would else take more memory than the numbers. For one thread at a time.
/// </summary>
internal sealed class SaidOnce
{
    private const int MostKept = 1_000;

    private readonly Dictionary<string, string> _sentences = new(StringComparer.Ordinal);
    private readonly Dictionary<CheckResult, CheckResult> _notJudged = [];

    /// <summary>The same answer, with what was said before not said again.</summary>
    public CheckResult Of(CheckResult check)
    {
        if (check.Verdict != Verdict.NotJudged)
        {
            string sentence = Kept(_sentences, check.Reason);
            return ReferenceEquals(sentence, check.Reason) ? check : check with { Reason = sentence };
        }

        return Kept(_notJudged, check);
    }

    private static T Kept<T>(Dictionary<T, T> before, T one)
        where T : notnull
    {
        if (before.TryGetValue(one, out T? known)) return known;
        if (before.Count < MostKept) before.Add(one, one);
        return one;
    }
}
