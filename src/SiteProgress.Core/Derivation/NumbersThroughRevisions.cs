namespace SiteProgress.Core.Derivation;

/// <summary>
/// Which pile a number meant when something was written about it. A decision names the pile by the number it had then; where a
/// revision gave it another number, the decision goes with the pile, not with the number.
/// </summary>
internal sealed class NumbersThroughRevisions
{
    private readonly Dictionary<string, List<(long Since, long Until, PileThroughRevisions Pile)>> _byName = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, PileThroughRevisions> _byNumber = new(StringComparer.OrdinalIgnoreCase);

    public NumbersThroughRevisions(IReadOnlyList<PileThroughRevisions> piles)
    {
        Differ = piles.Any(pile => pile.Names.Count > 1 || !string.Equals(pile.Names[0].Number, pile.Number, StringComparison.OrdinalIgnoreCase));
        if (!Differ) return;
        foreach (PileThroughRevisions pile in piles)
        {
            _byNumber[pile.Number] = pile;
            for (int index = 0; index < pile.Names.Count; index++)
            {
                (long since, string name) = pile.Names[index];
                long until = index + 1 < pile.Names.Count ? pile.Names[index + 1].Since : pile.TakenOutIn ?? long.MaxValue;
                if (!_byName.TryGetValue(name, out var spans)) _byName[name] = spans = [];
                spans.Add((since, until, pile));
            }
        }
    }

    /// <summary>True where some pile has another number than it had.</summary>
    public bool Differ { get; }

    public string Now(string number, long sequence)
    {
        if (!Differ || !_byName.TryGetValue(number, out var spans)) return number;
        foreach ((long since, long until, PileThroughRevisions pile) in spans)
        {
            if (sequence >= since && sequence < until) return pile.Number;
        }

        return number;
    }

    public string At(string number, long sequence)
    {
        if (!Differ || !_byNumber.TryGetValue(number, out PileThroughRevisions? pile)) return number;
        string name = pile.Names[0].Number;
        foreach ((long since, string later) in pile.Names)
        {
            if (since <= sequence) name = later;
        }

        return name;
    }
}
