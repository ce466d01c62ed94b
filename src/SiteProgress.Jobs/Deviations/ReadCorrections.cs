using NodaTime;
using Npgsql;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Deviations;

/// <summary>Lists the corrections of recorded positions, the newest first, with what became of them.</summary>
public sealed class ReadCorrections(NpgsqlDataSource store, SiteHistories histories)
{
    /// <summary>Barges of the site with their casings, for who proposes a correction.</summary>
    [Needs(Right.See)]
    public async Task<IReadOnlyList<CorrectionChoice>> ChoicesAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        SiteHistory history = await histories.ReadAsync(permit.Site, cancellation);
        return [.. (history.Settings?.Barges ?? []).Select(barge => new CorrectionChoice(barge.Name, [.. barge.Casings.Select(casing => casing.Number).Order()]))];
    }

    /// <summary>Reads them.</summary>
    [Needs(Right.See)]
    public async Task<IReadOnlyList<CorrectionLine>> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        SiteHistory history = await histories.ReadAsync(permit.Site, cancellation);
        if (history.Corrections.Count == 0 || history.Settings is not { } settings) return [];
        IReadOnlyDictionary<string, string> names = await RecordsIn.RecorderNames.ReadAsync(
            store, history.Corrections.SelectMany(one => new[] { one.ProposedBy, one.Decision?.By, one.Withdrawal?.By }).OfType<string>(), cancellation);
        WorkingDays days = new(settings);
        Dictionary<long, Instant?> ends = history.Installed.ToDictionary(row => row.Sequence, row => row.Value.End ?? row.Value.EndOfPenetration ?? row.Value.Start);
        string? Name(string? by) => by is null ? null : names.GetValueOrDefault(by, by);
        return history.Corrections.Reverse().Select(one =>
        {
            DateOnly[] touched = one.Body.Installations.Select(sequence => ends.GetValueOrDefault(sequence)).OfType<Instant>().Select(end => days.At(end).Day.ToDateOnly()).ToArray();
            return new CorrectionLine(
                one, Name(one.ProposedBy)!, Name(one.Decision?.By), Name(one.Withdrawal?.By), one.ProposedBy == SiteRecorder.AccountName(permit.Account),
                touched.Length == 0 ? null : touched.Min(), touched.Length == 0 ? null : touched.Max());
        }).ToArray();
    }
}
