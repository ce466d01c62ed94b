using NodaTime;
using Npgsql;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Piles;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Matches;

/// <summary>The records whose match waits for a person, those of one pattern together, and what was decided before.</summary>
public sealed class ReadWaitingMatches(SiteHistories histories, NpgsqlDataSource store)
{
    /// <summary>Reads them.</summary>
    [Needs(Right.See)]
    public async Task<WaitingMatches> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        DerivedSite site = await histories.ReadDerivedAsync(permit.Site, cancellation);
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        IReadOnlyDictionary<string, string> names = await RecorderNames.ReadAsync(connection, site.History.MatchDecisions.Select(one => one.By), cancellation);
        return WaitingMatches.Of(site, by => names.GetValueOrDefault(by, by));
    }
}

/// <summary>What waits and what was decided.</summary>
/// <param name="Groups">Waiting records by pattern and batch.</param>
/// <param name="Decisions">Decisions, the latest first; the withdrawn ones too.</param>
/// <param name="TimeZone">Time zone of the site.</param>
/// <param name="RecordSequence">The last record this follows from.</param>
public sealed record WaitingMatches(IReadOnlyList<WaitingGroup> Groups, IReadOnlyList<DecidedLine> Decisions, string TimeZone, long RecordSequence)
{
    /// <summary>Names of the axes of the site grid, on which the plans lie.</summary>
    public GridAxes Axes { get; private init; } = new("X", "Y");

    /// <summary>Gathers them from a site.</summary>
    internal static WaitingMatches Of(DerivedSite site, Func<string, string> nameOf)
    {
        Func<string, string?> planned = PlannedNumbers(site);
        Dictionary<long, string> files = site.History.Batches.ToDictionary(batch => batch.Sequence, batch => batch.Body.FileName);
        MatchPlans? plans = site.Installations.Any(one => one.Match.WaitsForDecision) ? new MatchPlans(site) : null;
        return new WaitingMatches(
            [.. site.Installations.Where(one => one.Match.WaitsForDecision)
                .GroupBy(one => (one.Match.Outcome, one.Located.Batch))
                .OrderBy(group => group.Key.Batch).ThenBy(group => group.Key.Outcome)
                .Select(group => new WaitingGroup(
                    group.Key.Outcome, group.Key.Batch, files.GetValueOrDefault(group.Key.Batch, ""), MatchProposals.Proposed(group.Key.Outcome),
                    [.. group.OrderBy(one => one.Located.Sequence).Select(one => new WaitingRecord(one, MatchProposals.Of(one, planned)))], plans!.Of(group)))],
            [.. site.History.MatchDecisions.Reverse().Select(one => new DecidedLine(one, nameOf(one.By)))],
            site.History.Settings?.TimeZone ?? "UTC",
            site.History.Sequence)
        {
            Axes = site.History.Settings?.GridAxes ?? new GridAxes("X", "Y"),
        };
    }

    /// <summary>The number of a planned pile as the design writes it; null for a number that is not in the design.</summary>
    internal static Func<string, string?> PlannedNumbers(DerivedSite site)
    {
        Dictionary<string, string> numbers = site.Piles.ToDictionary(pile => pile.Judgement.Pile.Number, pile => pile.Judgement.Pile.Number, StringComparer.OrdinalIgnoreCase);
        return number => numbers.GetValueOrDefault(number);
    }
}

/// <summary>Waiting records of one batch that are out of place in the same way.</summary>
/// <param name="Outcome">How.</param>
/// <param name="Batch">Sequence of the batch.</param>
/// <param name="FileName">File of the batch.</param>
/// <param name="Proposed">What the evidence speaks for; null where a person has to say.</param>
/// <param name="Records">The records.</param>
/// <param name="Plans">Where they lie among the planned piles, a drawing a part of the site.</param>
public sealed record WaitingGroup(
    MatchOutcome Outcome, long Batch, string FileName, MatchAnswer? Proposed, IReadOnlyList<WaitingRecord> Records, IReadOnlyList<MatchPlan> Plans);

/// <summary>A waiting record and what can be chosen for it.</summary>
/// <param name="Installation">The record with its match.</param>
/// <param name="Answers">What can be chosen, with the pile each means.</param>
public sealed record WaitingRecord(DerivedInstallation Installation, IReadOnlyList<(MatchAnswer Answer, string? Pile)> Answers);

/// <summary>A decision on matches.</summary>
/// <param name="Decision">The decision.</param>
/// <param name="By">Who made it, as a name.</param>
public sealed record DecidedLine(MatchDecision Decision, string By);
