using System.Text.Json;
using NodaTime;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;

namespace SiteProgress.Storage.Derived;

/// <summary>What was decided about piles, as rows.</summary>
internal static class DerivedTreatment
{
    public static NonConformanceRow[] NonConformances(DerivedSite site) => [.. site.Treated.NonConformances.Select(one => new NonConformanceRow
    {
        Number = one.Number,
        Stage = (short)one.Stage,
        Disposition = (short?)one.Proposal?.Disposition,
        Piles = [.. one.Piles()],
        DueOn = one.DueOn is { } due ? Day(due) : null,
        ProposedBy = one.Proposal?.By,
        Detail = JsonSerializer.Serialize(one, RecordJson.Options),
    })];

    public static LotRow[] Lots(DerivedSite site) => [.. site.Treated.Lots.Select(lot => new LotRow
    {
        Number = lot.Number,
        Stage = (short)lot.Stage,
        Piles = lot.Piles.Count,
        SubmittedBy = lot.Submitted.By,
        Detail = JsonSerializer.Serialize(lot, RecordJson.Options),
    })];

    public static HoldPointRow[] HoldPoints(DerivedSite site) => [.. site.Treated.HoldPoints.Select(point => new HoldPointRow
    {
        Number = point.Number,
        Waits = point.IsOpen(),
        PilesWaiting = point.PilesWaiting,
        Detail = JsonSerializer.Serialize(point, RecordJson.Options),
    })];

    /// <summary>Writes what was decided about a pile beside what it is.</summary>
    public static PileRow With(this PileRow row, PileTreatment treatment)
    {
        row.NonConformance = treatment.NonConformance;
        row.Lot = treatment.Lot;
        row.HeldBy = treatment.HeldBy;
        row.BuiltWhileHeld = treatment.BuiltWhileHeld;
        row.AcceptedIn = treatment.Acceptance?.Sequence;
        row.Reopened = treatment.Reopened;
        row.Replaces = treatment.Replaces;
        row.ReplacedBy = treatment.ReplacedBy;
        return row;
    }

    private static DateOnly Day(LocalDate day) => new(day.Year, day.Month, day.Day);
}
