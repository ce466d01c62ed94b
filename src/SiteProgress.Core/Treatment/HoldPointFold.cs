using NodaTime;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Treatment;

/// <summary>Makes a hold point of its records, and says what waits for it.</summary>
internal sealed class HoldPointFold
{
    private readonly IReadOnlyList<TreatmentRecord> _records;
    private readonly HoldPointSetBody _set;
    private readonly HashSet<string> _shown;
    private readonly HashSet<string> _waiting;
    private int _piles;

    public HoldPointFold(IReadOnlyList<TreatmentRecord> records)
    {
        _records = records;
        _set = (HoldPointSetBody)records[0].Body;
        _shown = new HashSet<string>(_set.Shown, StringComparer.OrdinalIgnoreCase);
        _waiting = new HashSet<string>(_set.Waiting, StringComparer.OrdinalIgnoreCase);
        Withdrawal = records.FirstOrDefault(record => record.Body is HoldPointWithdrawnBody);
        Release = ReleaseOf(records, _set.PointKind == HoldPointKind.BeforeAnchorsLift);
    }

    public int Number => _set.Number;

    private Instant SetAt => _records[0].At;

    private TreatmentRecord? Release { get; }

    private TreatmentRecord? Withdrawal { get; }

    private Instant? OverAt => (Release, Withdrawal) switch
    {
        ({ } release, { } withdrawal) => Instant.Min(release.At, withdrawal.At),
        _ => Release?.At ?? Withdrawal?.At,
    };

    /// <summary>True when the pile may not be built before the release.</summary>
    public bool Covers(PileJudgement pile)
        => !_shown.Contains(pile.Pile.Number)
            && (_waiting.Count > 0
                ? _waiting.Contains(pile.Pile.Number)
                : _set.Zone is { } zone && string.Equals(zone, pile.Pile.Zone, StringComparison.OrdinalIgnoreCase));

    /// <summary>True when the pile waits: it is not built, or was built although the hold point waited, and it still does.</summary>
    public bool Holds(PileJudgement pile)
    {
        bool holds = OverAt is null && (pile.Standing.Count == 0 || WasBuiltMeanwhile(pile));
        if (holds) _piles++;
        return holds;
    }

    /// <summary>True when the casing left the pile while the hold point waited.</summary>
    public bool WasBuiltMeanwhile(PileJudgement pile)
        => pile.Standing.Count > 0
            && pile.Standing[^1].Installation.Recorded.End is { } end
            && end >= SetAt
            && (OverAt is not { } over || end < over);

    public HoldPoint Make() => new(
        _set.Number,
        _set.PointKind,
        _set.Name,
        _set.Clause,
        _set.Shown,
        _set.Waiting,
        _set.Zone,
        _set.Barge,
        Release?.At,
        Withdrawal is not null,
        _piles,
        [.. _records.Select(TreatmentSteps.Of)]);

    /// <summary>The signature that completed the release: all who have to sign signed the same sheet.</summary>
    private static TreatmentRecord? ReleaseOf(IReadOnlyList<TreatmentRecord> records, bool needsSurveyor)
    {
        HashSet<string> bySurveyor = [];
        HashSet<string> byOwner = [];
        foreach (TreatmentRecord record in records)
        {
            if (record.Body is not HoldPointSignedBody signed) continue;
            (signed.AsSurveyor ? bySurveyor : byOwner).Add(signed.Seen);
            if (byOwner.Contains(signed.Seen) && (!needsSurveyor || bySurveyor.Contains(signed.Seen))) return record;
        }

        return null;
    }
}
