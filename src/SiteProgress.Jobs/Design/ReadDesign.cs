using Npgsql;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Design;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Piles;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Design;

/// <summary>The design through its revisions: what each changed, and which built piles were changed afterwards.</summary>
public sealed class ReadDesign(SiteHistories histories, NpgsqlDataSource store)
{
    /// <summary>A revision with what it changed.</summary>
    /// <param name="Revision">The revision.</param>
    /// <param name="By">Who recorded it, as a name.</param>
    /// <param name="Previous">The revision before it that counts; 0 where there is none.</param>
    /// <param name="Added">Piles it added.</param>
    /// <param name="Deleted">Piles it took out.</param>
    /// <param name="Moved">Piles it moved.</param>
    /// <param name="Renumbered">Piles it renumbered.</param>
    /// <param name="Changed">Piles it changed otherwise.</param>
    /// <param name="Planned">Piles planned after it.</param>
    public sealed record RevisionLine(DesignRevision Revision, string By, int Previous, int Added, int Deleted, int Moved, int Renumbered, int Changed, int Planned);

    /// <summary>A proposal for changed piles with the names of who made and decided it.</summary>
    /// <param name="Proposal">The proposal.</param>
    /// <param name="By">Who made it.</param>
    /// <param name="DecidedBy">Who decided it; null while nobody did.</param>
    /// <param name="Own">True for the reader's own.</param>
    public sealed record ProposalLine(DesignChangeProposal Proposal, string By, string? DecidedBy, bool Own);

    /// <summary>The design of a site.</summary>
    /// <param name="Revisions">Revisions, the latest first.</param>
    /// <param name="Changed">Built piles whose design was changed afterwards, by number; those decided too.</param>
    /// <param name="Proposals">Proposals for them, the latest first.</param>
    /// <param name="Planned">Piles planned now, the additional ones too.</param>
    /// <param name="Additional">Those of them that non-conformances put into the design and no schedule names.</param>
    /// <param name="Axes">Names of the axes of the site grid.</param>
    /// <param name="TimeZone">Time zone of the site.</param>
    /// <param name="RecordSequence">The last record this follows from.</param>
    public sealed record View(
        IReadOnlyList<RevisionLine> Revisions, IReadOnlyList<DerivedPile> Changed, IReadOnlyList<ProposalLine> Proposals, int Planned, int Additional, GridAxes Axes,
        string TimeZone, long RecordSequence)
    {
        /// <summary>Changed piles that wait for a proposal: nothing is decided, and no proposal waits.</summary>
        public IEnumerable<DerivedPile> WaitForProposal
        {
            get
            {
                HashSet<string> proposed = new(
                    Proposals.Where(one => one.Proposal.Decision is null).SelectMany(one => one.Proposal.Body.Piles.Select(pile => $"{pile.Number} {pile.Line}")), StringComparer.OrdinalIgnoreCase);
                return Changed.Where(pile => pile.Design.IsOpen && !proposed.Contains($"{pile.Judgement.Pile.Number} {pile.Design.Line}"));
            }
        }
    }

    /// <summary>Reads it.</summary>
    [Needs(Right.See)]
    public async Task<View> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        DerivedSite site = await histories.ReadDerivedAsync(permit.Site, cancellation);
        IReadOnlyList<DesignRevision> revisions = site.Design?.Revisions ?? [];
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        IReadOnlyDictionary<string, string> names = await RecorderNames.ReadAsync(
            connection,
            [.. revisions.Select(one => one.Batch.RecordedBy), .. site.Treated.DesignProposals.SelectMany(one => new[] { one.Record.By, one.Decision?.By }).OfType<string>()],
            cancellation);
        string me = SiteRecorder.AccountName(permit.Account);
        return new View(
            [.. Lines(site, revisions, names).OrderByDescending(line => line.Revision.Number)],
            [.. site.Piles.Where(pile => pile.Design.Change is not null)],
            [.. site.Treated.DesignProposals.Reverse().Select(one => new ProposalLine(one, names[one.Record.By], one.Decision is { } decision ? names[decision.By] : null, one.Record.By == me))],
            site.Design?.Piles.Count(pile => pile.TakenOutBy is null) ?? 0,
            site.Design?.Piles.Count(pile => pile is { TakenOutBy: null, Last.Revision: 0 }) ?? 0,
            site.History.Settings?.GridAxes ?? new GridAxes("X", "Y"),
            site.History.Settings?.TimeZone ?? "UTC",
            site.History.Sequence);
    }

    private static List<RevisionLine> Lines(DerivedSite site, IReadOnlyList<DesignRevision> revisions, IReadOnlyDictionary<string, string> names)
    {
        List<RevisionLine> lines = [];
        (int previous, IReadOnlyList<PlannedPile> before) = (0, []);
        foreach (DesignRevision revision in revisions)
        {
            IReadOnlyList<PlannedPile> after = revision.Counts ? site.Design!.After(revision.Number) : before;
            DesignDifference difference = DesignDifference.Between(before, after, site.Frames!.Rotation);
            lines.Add(new RevisionLine(
                revision, names[revision.Batch.RecordedBy], previous, difference.Count(DesignChangeKind.Added), difference.Count(DesignChangeKind.Deleted),
                difference.Count(DesignChangeKind.Moved), difference.Count(DesignChangeKind.Renumbered), difference.Count(DesignChangeKind.Changed), after.Count));
            if (revision.Counts) (previous, before) = (revision.Number, after);
        }

        return lines;
    }
}
