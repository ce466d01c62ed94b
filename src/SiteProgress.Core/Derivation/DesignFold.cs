using NodaTime;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Design;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Derivation;

/// <summary>Puts one revision of the design after another.</summary>
internal sealed class DesignFold
{
    private readonly Dictionary<string, PileThroughRevisions> _inForce = new(StringComparer.OrdinalIgnoreCase);
    private readonly List<PileThroughRevisions> _takenOut = [];

    /// <summary>The piles planned now, as the schedules have them.</summary>
    public IEnumerable<PlannedPile> Planned => _inForce.Values.Select(pile => pile.Last.Pile);

    /// <summary>Every pile ever planned, by number; each number once.</summary>
    public IReadOnlyList<PileThroughRevisions> Piles()
    {
        HashSet<string> taken = new(_inForce.Keys, StringComparer.OrdinalIgnoreCase);
        foreach (PileThroughRevisions pile in Enumerable.Reverse(_takenOut))
        {
            string plain = pile.Last.Pile.Number, number = plain;
            for (int again = 1; !taken.Add(number); again++)
                number = again == 1 ? FormattableString.Invariant($"{plain} (rev {pile.Last.Revision})") : FormattableString.Invariant($"{plain} (rev {pile.Last.Revision}, {again})");
            pile.Number = number;
        }

        return [.. _inForce.Values.Concat(_takenOut).OrderBy(pile => pile.Number, StringComparer.Ordinal)];
    }

    public void Apply(DesignRevision revision, PlannedPile[] rows)
    {
        if (revision.Scope == DesignScope.Amends && !rows.Any(row => _inForce.ContainsKey(row.Number)))
        {
            foreach (PlannedPile row in rows) Add(row, revision, Instant.MinValue);
            return;
        }

        Instant from = revision.InForceFrom ?? Instant.MinValue;
        (PileThroughRevisions? Was, PlannedPile? Now)[] pairs = [.. DesignPairs.Of([.. Touched(revision, rows)], rows)
            .Select(pair => (pair.Before is { } before ? _inForce[before.Number] : null, pair.After))];
        // Numbers may go round among the piles, so all are taken off before any is given.
        foreach ((PileThroughRevisions? was, _) in pairs)
        {
            if (was is not null) _inForce.Remove(was.Number);
        }

        foreach ((PileThroughRevisions? was, PlannedPile? now) in pairs) Apply(revision, was, now, from);
    }

    private void Apply(DesignRevision revision, PileThroughRevisions? was, PlannedPile? now, Instant from)
    {
        if (was is null)
        {
            // Nothing was built at a pile that no design had, so one that is merely added counts from the beginning.
            Add(now!, revision, revision.Scope == DesignScope.Amends ? Instant.MinValue : from);
        }
        else if (now is null)
        {
            if (was.TakeOut(revision.Number, revision.Batch.Sequence, from)) _takenOut.Add(was);
        }
        else
        {
            // What is said again stays what it was. Schedules recorded before revisions were asked for took the place of what was there.
            if (revision.Batch.Body.Design is null || !IsSaidAgain(was.Last.Pile, now)) was.Put(now, revision.Number, revision.Batch.Sequence, from);
            _inForce[now.Number] = was;
        }
    }

    /// <summary>An additional pile that a disposition put into the design. A number of a schedule goes before it: the designer drew it later.</summary>
    /// <param name="additional">The additional piles, each under today's number of the pile it replaces.</param>
    /// <param name="planned">Every pile ever planned.</param>
    public void AddApproved(IReadOnlyList<(AdditionalPile Pile, long Sequence)> additional, IReadOnlyList<PileThroughRevisions> planned)
    {
        Dictionary<string, PileThroughRevisions> known = planned.ToDictionary(pile => pile.Number, StringComparer.OrdinalIgnoreCase);
        foreach ((AdditionalPile pile, long sequence) in additional)
        {
            if (!known.TryGetValue(pile.Replaces, out PileThroughRevisions? original) || _inForce.ContainsKey(pile.Number)) continue;
            PlannedPile like = original.Last.Pile;
            known[pile.Number] = _inForce[pile.Number] = new PileThroughRevisions(
                like with
                {
                    Sequence = sequence,
                    Number = pile.Number,
                    Position = new SiteCoordinate(pile.XMetres, pile.YMetres),
                    DiameterMetres = pile.DiameterMetres ?? like.DiameterMetres,
                    TopLevelMetres = pile.TopLevelMetres ?? like.TopLevelMetres,
                    TipLevelMetres = pile.TipLevelMetres ?? like.TipLevelMetres,
                    Remark = $"Additional pile, replaces {like.Number}.",
                },
                0, sequence, Instant.MinValue);
        }
    }

    /// <summary>The piles in force that the revision speaks of: those it names, and those of its zones.</summary>
    private IEnumerable<PlannedPile> Touched(DesignRevision revision, PlannedPile[] rows)
    {
        if (revision.Scope == DesignScope.Site) return Planned;
        HashSet<string> named = new(rows.Select(row => row.Number), StringComparer.OrdinalIgnoreCase);
        HashSet<string> zones = new(revision.Scope == DesignScope.Zones ? revision.Batch.Body.Design?.Zones ?? [] : [], StringComparer.OrdinalIgnoreCase);
        return zones.Count == 0
            ? named.Where(_inForce.ContainsKey).Select(number => _inForce[number].Last.Pile)
            : Planned.Where(pile => named.Contains(pile.Number) || zones.Contains(pile.Zone));
    }

    private static bool IsSaidAgain(PlannedPile was, PlannedPile now)
        => string.Equals(was.Number, now.Number, StringComparison.OrdinalIgnoreCase) && was.Position == now.Position && FieldChange.Between(was, now).Count == 0;

    private void Add(PlannedPile pile, DesignRevision revision, Instant from)
        => _inForce[pile.Number] = new PileThroughRevisions(pile, revision.Number, revision.Batch.Sequence, from);
}
