using Npgsql;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Treatment;

/// <summary>Hold points with what is shown to who signs.</summary>
public sealed class ReadHoldPoints(SiteHistories histories, NpgsqlDataSource store, TimeProvider clock)
{
    /// <summary>A hold point.</summary>
    /// <param name="Point">The hold point.</param>
    /// <param name="Sheet">What is shown to who signs.</param>
    /// <param name="Hash">Hash of the sheet; it is sent back with the signature.</param>
    public sealed record One(HoldPoint Point, Sheet Sheet, string Hash);

    /// <summary>All hold points.</summary>
    /// <param name="All">Those that wait first, then by number, the latest first.</param>
    /// <param name="Zones">Zones of the site, to choose from.</param>
    /// <param name="Barges">Barges of the site, to choose from.</param>
    /// <param name="Names">Names of those who recorded.</param>
    /// <param name="TimeZone">Time zone of the site.</param>
    /// <param name="RecordSequence">The last record this follows from.</param>
    public sealed record List(
        IReadOnlyList<One> All,
        IReadOnlyList<string> Zones,
        IReadOnlyList<string> Barges,
        IReadOnlyDictionary<string, string> Names,
        string TimeZone,
        long RecordSequence);

    /// <summary>Reads them.</summary>
    [Needs(Right.See)]
    public async Task<List> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        SiteAtHand hand = await SiteAtHand.ReadAsync(permit, histories, store, clock, cancellation);
        One[] all = [.. hand.Treated.HoldPoints
            .OrderByDescending(point => point.IsOpen()).ThenByDescending(point => point.Number)
            .Select(point => (Point: point, Sheet: TreatmentSheets.Of(point, hand.Treated)))
            .Select(one => new One(one.Point, one.Sheet, one.Sheet.Hash))];
        return new List(
            all,
            [.. hand.Site.History.Settings?.Zones.Select(zone => zone.Code) ?? []],
            [.. hand.Site.History.Settings?.Barges.Select(barge => barge.Name) ?? []],
            await hand.NamesAsync(hand.Treated.HoldPoints.SelectMany(point => point.Steps.Select(step => step.By)), cancellation),
            hand.TimeZone,
            hand.Site.History.Sequence);
    }
}
