using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Derivation;

/// <summary>A revision of the design: one batch of planned piles. Its number stays, whatever is withdrawn later.</summary>
/// <param name="Number">Counted on the site from 1, in the order recorded, the withdrawn ones too.</param>
/// <param name="Batch">The batch.</param>
public sealed record DesignRevision(int Number, Batch Batch)
{
    /// <summary>What it says of piles it does not name. A schedule recorded before this was asked only adds and changes.</summary>
    public DesignScope Scope => Batch.Body.Design?.Scope ?? DesignScope.Amends;

    /// <summary>From when it holds; null: from the beginning.</summary>
    public Instant? InForceFrom => Batch.Body.Design?.InForceFrom;

    /// <summary>What the designer calls it; null where that was not said.</summary>
    public string? Name => Batch.Body.Design?.Name;

    /// <summary>False once it is withdrawn.</summary>
    public bool Counts => Batch.Withdrawal is null;
}

/// <summary>A planned pile as one revision has it, for a span of time.</summary>
/// <param name="Pile">The pile, under the number it had then.</param>
/// <param name="Revision">Number of the revision; 0 for an additional pile that a disposition put into the design.</param>
/// <param name="From">From when.</param>
/// <param name="Until">Until when, itself not in the span.</param>
public sealed record PileVersion(PlannedPile Pile, int Revision, Instant From, Instant Until);

/// <summary>One planned pile through all revisions: its number may change, and it may be moved or taken out.</summary>
public sealed class PileThroughRevisions
{
    // Most piles have one version and one number, and there are many piles.
    private readonly List<PileVersion> _versions = new(1);
    private readonly List<(long Since, string Number)> _names = new(1);

    internal PileThroughRevisions(PlannedPile pile, int revision, long batch, Instant from)
    {
        Put(pile, revision, batch, from);
    }

    /// <summary>Its number now; where it was taken out and another pile bears its number, that number with its last revision.</summary>
    public string Number { get; internal set; } = "";

    /// <summary>As it was planned, in order of time; never empty.</summary>
    public IReadOnlyList<PileVersion> Versions => _versions;

    /// <summary>As it is planned now; where it was taken out, as it was last.</summary>
    public PileVersion Last => _versions[^1];

    /// <summary>The revision that took it out; null while it is in the design.</summary>
    public int? TakenOutBy { get; private set; }

    /// <summary>Sequence of the batch that took it out; null while it is in the design.</summary>
    internal long? TakenOutIn { get; private set; }

    /// <summary>Numbers it had, each with the sequence of the batch since which it had it.</summary>
    internal IReadOnlyList<(long Since, string Number)> Names => _names;

    /// <summary>As it was planned at a moment; before its first version, as that has it.</summary>
    public PileVersion At(Instant at)
    {
        foreach (PileVersion version in _versions)
        {
            if (at < version.Until) return version;
        }

        return Last;
    }

    /// <summary>The last word holds from its moment on, whatever was said before of that time.</summary>
    internal void Put(PlannedPile pile, int revision, long batch, Instant from)
    {
        CutAt(from);
        _versions.Add(new PileVersion(pile, revision, from, Instant.MaxValue));
        if (_names.Count == 0 || !string.Equals(_names[^1].Number, pile.Number, StringComparison.OrdinalIgnoreCase)) _names.Add((batch, pile.Number));
        Number = pile.Number;
    }

    /// <summary>Takes it out.</summary>
    /// <returns>False where it was in the design at no time then.</returns>
    internal bool TakeOut(int revision, long batch, Instant from)
    {
        (TakenOutBy, TakenOutIn) = (revision, batch);
        CutAt(from);
        return _versions.Count > 0;
    }

    private void CutAt(Instant from)
    {
        _versions.RemoveAll(version => version.From >= from);
        if (_versions.Count > 0) _versions[^1] = _versions[^1] with { Until = from };
    }
}
