using NodaTime;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Design;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Derivation;

/// <summary>The design of a site through its revisions: which piles were planned when, under which number, and which are planned now.</summary>
public sealed class SiteDesign
{
    private readonly SiteHistory _history;
    private readonly SiteFrames _frames;
    private readonly SiteSettings _settings;
    private readonly NumbersThroughRevisions _numbers;

    private SiteDesign(SiteHistory history, SiteFrames frames, SiteSettings settings, IReadOnlyList<DesignRevision> revisions, DesignFold fold)
    {
        (_history, _frames, _settings, Revisions) = (history, frames, settings, revisions);
        Piles = fold.Piles();
        _numbers = new NumbersThroughRevisions(Piles);
    }

    /// <summary>Revisions in the order recorded, the withdrawn ones too.</summary>
    public IReadOnlyList<DesignRevision> Revisions { get; }

    /// <summary>Every pile that was ever planned and not taken back from the beginning; those taken out too.</summary>
    public IReadOnlyList<PileThroughRevisions> Piles { get; }

    /// <summary>Works the design out.</summary>
    internal static SiteDesign Of(
        SiteHistory history, SiteFrames frames, SiteSettings settings, IReadOnlyList<(AdditionalPile Pile, long Sequence)> additional)
    {
        DesignRevision[] revisions = [.. history.Batches.Where(batch => batch.Body.Content == BatchContent.PlannedPiles).Select((batch, index) => new DesignRevision(index + 1, batch))];
        DesignFold fold = Fold(history, frames, settings, revisions);
        if (additional.Count > 0)
        {
            IReadOnlyList<PileThroughRevisions> planned = fold.Piles();
            NumbersThroughRevisions numbers = new(planned);
            fold.AddApproved([.. additional.Select(one => (one.Pile with { Replaces = numbers.Now(one.Pile.Replaces, one.Sequence) }, one.Sequence))], planned);
        }

        return new SiteDesign(history, frames, settings, revisions, fold);
    }

    /// <summary>The piles planned after a revision, as the schedules have them; those of a later one left out. 0 for none.</summary>
    public IReadOnlyList<PlannedPile> After(int revision)
        => [.. Fold(_history, _frames, _settings, Revisions.Where(one => one.Number <= revision)).Planned.OrderBy(pile => pile.Number, StringComparer.Ordinal)];

    /// <summary>The number now of a pile that was written under a number when the site's sequence stood at a record.</summary>
    public string NumberNow(string number, long sequence) => _numbers.Now(number, sequence);

    /// <summary>The number that a pile had when the site's sequence stood at a record.</summary>
    public string NumberAt(string number, long sequence) => _numbers.At(number, sequence);

    /// <summary>True where some pile has another number than it had.</summary>
    public bool IsRenumbered => _numbers.Differ;

    /// <summary>All versions for finding piles by number or place at a moment.</summary>
    internal IEnumerable<DesignEntry> Entries()
        => Piles.SelectMany(pile => pile.Versions.Select(version => new DesignEntry(version.Pile.Under(pile.Number), version.Pile.Number, version.From, version.Until)));

    private static DesignFold Fold(SiteHistory history, SiteFrames frames, SiteSettings settings, IEnumerable<DesignRevision> revisions)
    {
        DesignFold fold = new();
        ILookup<long, BatchRow<AsPlanned>> rows = history.Planned.ToLookup(row => row.Batch);
        foreach (DesignRevision revision in revisions.Where(one => one.Counts))
            fold.Apply(revision, OnSite(rows[revision.Batch.Sequence].ToArray(), revision, frames, settings));
        return fold;
    }

    private static PlannedPile[] OnSite(BatchRow<AsPlanned>[] rows, DesignRevision revision, SiteFrames frames, SiteSettings settings)
    {
        SiteCoordinate?[] positions = frames.ToSite(Array.ConvertAll(rows, row => (RecordedPosition?)row.Value.Position), revision.Batch.Body.AdjustmentRevision);
        Dictionary<string, PlannedPile> piles = new(rows.Length, StringComparer.OrdinalIgnoreCase);
        for (int index = 0; index < rows.Length; index++)
            piles[rows[index].Value.Number] = Pile(rows[index], positions[index]!.Value, settings.FindZone(rows[index].Value.Zone));
        return [.. piles.Values];
    }

    private static PlannedPile Pile(BatchRow<AsPlanned> row, SiteCoordinate position, Zone? zone) => new(
        row.Sequence,
        row.Value.Number,
        zone?.Code ?? row.Value.Zone,
        position,
        row.Value.DiameterMetres ?? zone?.DesignDiameterMetres ?? 0,
        row.Value.TopLevelMetres ?? zone?.TopLevelMetres ?? 0,
        row.Value.TipLevelMetres ?? zone?.TipLevelMetres,
        row.Value.LeastLengthMetres ?? zone?.LeastLengthMetres,
        row.Value.Remark);
}
