using NodaTime;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Storage.Derived;

namespace SiteProgress.Jobs.Piles;

/// <summary>Puts the rows of one pile together with the frames its positions are shown in. It judges nothing: the rows are judged.</summary>
internal sealed class PileAssembly(SiteSettings settings, SiteFrames frames, PileRow pile)
{
    /// <summary>Design and limits of the pile's zone.</summary>
    public Zone Zone { get; } = settings.FindZone(pile.Zone)
        ?? throw new InvalidOperationException($"Pile {pile.Number} stands in zone {pile.Zone}, which the settings do not hold.");

    private SiteCoordinate DesignPosition => new(pile.DesignX, pile.DesignY);

    public FrameNames Names() => new(
        settings.LevelDatum, settings.GridAxes, frames.Current.Crs.Name, frames.Current.Crs.EpsgCode, frames.Current.Crs.GeographicName,
        frames.CurrentRevision, frames.Current.Adjustment.BearingOfXAxisDegrees, frames.Current.Adjustment.BearingOfYAxisDegrees, settings.TimeZone);

    public DesignOfPile Design() => new(
        pile.DesignSequence, Place(DesignPosition, frames.CurrentRevision), pile.DesignDiameter, pile.DesignTop, pile.DesignTip, pile.LeastLength, pile.Remark);

    public AsBuiltPile AsBuilt(IReadOnlyList<InstallationRow> attempts) => new(
        Judged(attempts),
        pile.AsBuiltTop,
        pile.AsBuiltTip,
        pile.Length,
        pile.MeanDiameter,
        new SandOfPile(pile.SandInCasing, pile.SandInPile, pile.SandDesign, settings.FindSandSource(Zone.SandSource)),
        pile.BeyondAlert,
        pile.Standing,
        At(pile.EndedAt),
        Day(pile.WorkingDay),
        pile.Shift,
        pile.Barge,
        pile.Casing,
        pile.SetUp);

    public IReadOnlyList<PileAttempt> Attempts(
        IReadOnlyList<InstallationRow> rows,
        IReadOnlyDictionary<long, KeptRecord> records,
        IReadOnlyDictionary<long, BatchRow> batches,
        IReadOnlyDictionary<string, string> names)
        => [.. rows.Where(row => records.ContainsKey(row.Sequence)).Select(row => Attempt(row, records[row.Sequence], batches[row.Batch], names))];

    private PileAttempt Attempt(InstallationRow row, KeptRecord record, BatchRow batch, IReadOnlyDictionary<string, string> names) => new(
        row.Sequence,
        row.Batch,
        batch.FileName,
        row.Line,
        record.RecordedAt,
        names[record.RecordedBy],
        ((PileInstalledBody)record.Body).Installation,
        Position(row.TouchDownX, row.TouchDownY, row.AdjustmentRevision),
        Position(row.DeepestX, row.DeepestY, row.AdjustmentRevision),
        (MatchOutcome)row.Match,
        row.Adopted,
        row.Nearest,
        row.DistanceToNamed,
        row.DistanceToNearest,
        row.SameAs,
        row.WaitsForDecision,
        row.Stands,
        Day(row.WorkingDay),
        row.Shift,
        row.AdjustmentRevision);

    private AttemptPosition? Position(double? first, double? second, int revision)
        => first is { } x && second is { } y
            ? new AttemptPosition(Place(new SiteCoordinate(x, y), revision), PositionDeviation.Between(DesignPosition, new SiteCoordinate(x, y), frames.Rotation))
            : null;

    private JudgedPlace? Judged(IReadOnlyList<InstallationRow> attempts)
    {
        if (pile is not { AsBuiltX: { } x, AsBuiltY: { } y, JudgedInstallation: { } sequence, JudgedMoment: { } moment, Uncertainty: { } uncertainty }) return null;
        InstallationRow? from = attempts.FirstOrDefault(row => row.Sequence == sequence);
        return new JudgedPlace(
            sequence,
            (PositionMoment)moment,
            Place(new SiteCoordinate(x, y), from?.AdjustmentRevision ?? frames.CurrentRevision),
            new PositionDeviation(pile.DeviationEast!.Value, pile.DeviationNorth!.Value, pile.DeviationAlong!.Value, pile.DeviationAcross!.Value),
            uncertainty,
            from?.Uncertainty is null,
            pile.Comparable);
    }

    private PlaceInFrames Place(SiteCoordinate site, int revision)
    {
        CoordinateService service = frames.Of(revision);
        ProjectedCoordinate projected = service.ToProjected(site);
        GeographicCoordinate geographic = service.ToGeographic(projected);
        return new PlaceInFrames(site, projected, double.IsFinite(geographic.LatitudeDegrees) ? geographic : null);
    }

    private static Instant? At(DateTime? utc) => utc is { } at ? Instant.FromDateTimeUtc(DateTime.SpecifyKind(at, DateTimeKind.Utc)) : null;

    private static LocalDate? Day(DateOnly? day) => day is { } on ? LocalDate.FromDateOnly(on) : null;
}
