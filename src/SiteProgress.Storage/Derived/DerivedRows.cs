using System.Text.Json;
using NetTopologySuite.Geometries;
using NodaTime;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Core.Records;

namespace SiteProgress.Storage.Derived;

/// <summary>Derived state as rows: the one mapping from what the core works out to what stands in the tables.</summary>
public static class DerivedRows
{
    /// <summary>Planned piles, each made as it is asked for.</summary>
    public static IEnumerable<PileRow> Piles(DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        int srid = Srid(site);
        return site.Piles.Select(pile => Pile(pile, site.History.Settings!, srid).With(pile.Treatment));
    }

    /// <summary>Recorded installations, each made as it is asked for.</summary>
    public static IEnumerable<InstallationRow> Installations(DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        int srid = Srid(site);
        return site.Installations.Select(installation => Installation(installation, srid));
    }

    /// <summary>Production by working day.</summary>
    public static DayProductionRow[] Production(DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.Production.Select(day => new DayProductionRow
        {
            WorkingDay = Day(day.Day),
            Shift = day.Shift,
            Barge = day.Barge,
            Casing = day.Casing,
            Zone = day.Zone,
            Attempts = day.Attempts,
            Piles = day.Piles,
            Metres = day.Metres,
            SandInCasing = day.SandInCasing,
            SandInPile = day.SandInPile,
            PilesWithFinding = day.PilesWithFinding,
        }).ToArray();
    }

    /// <summary>Batches.</summary>
    public static BatchRow[] Batches(DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.History.Batches.Select(batch => new BatchRow
        {
            Batch = batch.Sequence,
            Upload = batch.Body.Upload,
            FileName = batch.Body.FileName,
            Sha256 = batch.Body.Sha256,
            Content = (short)batch.Body.Content,
            RowsRead = batch.Body.RowsRead,
            RowsRecorded = batch.Body.RowsRecorded,
            LinesLeftOut = [.. batch.Body.LinesLeftOut],
            Assumptions = [.. batch.Body.Assumptions],
            Sender = batch.Body.Sender,
            Problems = batch.Body.Problems is { Count: > 0 } problems ? JsonSerializer.Serialize(problems, RecordJson.Options) : null,
            RecordedAt = batch.RecordedAt.ToDateTimeUtc(),
            RecordedBy = batch.RecordedBy,
            WithdrawnAt = batch.Withdrawal?.At.ToDateTimeUtc(),
            WithdrawnBy = batch.Withdrawal?.By,
            WithdrawnBecause = batch.Withdrawal?.Reason,
        }).ToArray();
    }

    /// <summary>Check measurements.</summary>
    public static PositionCheckRow[] PositionChecks(DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.PositionChecks.Select(check => new PositionCheckRow
        {
            Sequence = check.Row.Sequence,
            Batch = check.Row.Batch,
            MeasuredAt = check.Row.Value.At.ToDateTimeUtc(),
            Barge = check.Row.Value.Barge,
            Casing = check.Row.Value.Casing,
            Number = check.Row.Value.PileNumber,
            DifferenceEast = check.Difference.EastMetres,
            DifferenceNorth = check.Difference.NorthMetres,
            Method = check.Row.Value.Method,
            Uncertainty = check.Row.Value.UncertaintyMetres,
        }).ToArray();
    }

    private static PileRow Pile(DerivedPile derived, SiteSettings settings, int srid)
    {
        PileJudgement judgement = derived.Judgement;
        PlannedPile pile = judgement.Pile;
        PositionLimit limit = ContractLimits.Position(settings.FindZone(pile.Zone)!, pile.DiameterMetres);
        LocatedInstallation? last = judgement.Standing.Count > 0 ? judgement.Standing[^1].Installation : null;
        return new PileRow
        {
            Number = pile.Number,
            Zone = pile.Zone,
            State = (short)judgement.State,
            DesignSequence = pile.Sequence,
            DesignX = pile.Position.XMetres,
            DesignY = pile.Position.YMetres,
            Latitude = derived.Geographic.LatitudeDegrees,
            Longitude = derived.Geographic.LongitudeDegrees,
            DesignPlace = Place(derived.Projected, srid),
            DesignDiameter = pile.DiameterMetres,
            DesignTop = pile.TopLevelMetres,
            DesignTip = pile.TipLevelMetres,
            LeastLength = pile.LeastLengthMetres,
            Remark = pile.Remark,
            DesignRevision = derived.Design.JudgedBy,
            DesignChange = derived.Design.Line,
            DesignChangeOpen = derived.Design.IsOpen,
            TakenOutBy = derived.Design.Change is { After: null } ? derived.Design.ChangedBy : null,
            Attempts = judgement.Attempts,
            Standing = judgement.Standing.Select(part => part.Installation.Sequence).ToArray(),
            JudgedInstallation = judgement.Position?.Sequence,
            JudgedMoment = (short?)judgement.Position?.Moment,
            AsBuiltX = judgement.Position?.AsBuilt.XMetres,
            AsBuiltY = judgement.Position?.AsBuilt.YMetres,
            AsBuiltPlace = derived.AsBuilt is { } asBuilt ? Place(asBuilt, srid) : null,
            DeviationEast = judgement.Position?.Deviation.EastMetres,
            DeviationNorth = judgement.Position?.Deviation.NorthMetres,
            DeviationAlong = judgement.Position?.Deviation.AlongMetres,
            DeviationAcross = judgement.Position?.Deviation.AcrossMetres,
            DeviationRadial = judgement.Position?.Deviation.RadialMetres,
            Uncertainty = judgement.Position?.UncertaintyMetres,
            Comparable = judgement.Position?.Comparable ?? false,
            RadialLimit = limit.RadialMetres,
            AlongLimit = limit.AlongMetres,
            AcrossLimit = limit.AcrossMetres,
            LimitShare = judgement.Position is { } judged ? limit.Hold(judged.Deviation).Answer.ShareOfLimitRatio : null,
            BeyondAlert = judgement.BeyondAlert,
            Alerts = Words(judgement, check => check.BeyondAlert),
            AsBuiltTop = judgement.AsBuiltTopLevelMetres,
            AsBuiltTip = judgement.AsBuiltTipLevelMetres,
            Length = judgement.LengthMetres,
            SandInCasing = judgement.Sand?.InCasingUsed,
            SandInPile = judgement.Sand?.InPile,
            SandDesign = judgement.Sand?.DesignInPile,
            MeanDiameter = judgement.MeanDiameterMetres,
            WorkingDay = derived.Completed is { } completed ? Day(completed.Day) : null,
            Shift = derived.Completed?.Shift,
            EndedAt = last?.Recorded.End?.ToDateTimeUtc(),
            Barge = last?.Recorded.Barge,
            Casing = last?.Recorded.Casing,
            SetUp = last?.Recorded.SetUp,
            Findings = Words(judgement, check => check.Verdict == Verdict.NotMet),
            NotJudged = Words(judgement, check => check is { Required: true, Verdict: Verdict.NotJudged }),
            Checks = JsonSerializer.Serialize(judgement.Checks, RecordJson.Options),
        };
    }

    private static InstallationRow Installation(DerivedInstallation derived, int srid)
    {
        LocatedInstallation located = derived.Located;
        Installation recorded = located.Recorded;
        return new InstallationRow
        {
            Sequence = located.Sequence,
            Batch = located.Batch,
            Line = derived.Line,
            RecordId = recorded.RecordId,
            RecordedNumber = recorded.PileNumber,
            Match = (short)derived.Match.Outcome,
            Adopted = derived.Match.Adopted,
            Nearest = derived.Match.Nearest,
            DistanceToNamed = derived.Match.DistanceToNamedMetres,
            DistanceToNearest = derived.Match.DistanceToNearestMetres,
            SameAs = derived.Match.SameAs,
            WaitsForDecision = derived.Match.WaitsForDecision,
            Stands = derived.Stands,
            Barge = recorded.Barge,
            Casing = recorded.Casing,
            SetUp = recorded.SetUp,
            StartedAt = recorded.Start?.ToDateTimeUtc(),
            DeepestAt = recorded.EndOfPenetration?.ToDateTimeUtc(),
            EndedAt = recorded.End?.ToDateTimeUtc(),
            WorkingDay = derived.Ended is { } ended ? Day(ended.Day) : null,
            Shift = derived.Ended?.Shift,
            AdjustmentRevision = located.AdjustmentRevision,
            Frame = (short?)(recorded.AtEndOfPenetration ?? recorded.TouchDown)?.Frame,
            TouchDownX = located.TouchDown?.XMetres,
            TouchDownY = located.TouchDown?.YMetres,
            DeepestX = located.AtEndOfPenetration?.XMetres,
            DeepestY = located.AtEndOfPenetration?.YMetres,
            Latitude = derived.Geographic?.LatitudeDegrees,
            Longitude = derived.Geographic?.LongitudeDegrees,
            Place = derived.Projected is { } projected ? Place(projected, srid) : null,
            Heading = recorded.HeadingDegrees,
            HeadingNorth = (short?)recorded.HeadingNorth,
            Top = recorded.TopLevelMetres,
            Tip = recorded.TipLevelMetres,
            SandInCasing = recorded.SandInCasing,
            Inclination = recorded.InclinationDegrees,
            StopRate = recorded.StopRateMetresPerMinute,
            Fix = (short?)recorded.Fix,
            Uncertainty = recorded.UncertaintyMetres,
            Outcome = (short)recorded.Outcome,
            Remark = recorded.Remark,
            Calibration = located.Calibration,
            ClockCorrection = derived.Clock?.Sequence,
            Levels = derived.Levels is { } levels ? JsonSerializer.Serialize(levels, RecordJson.Options) : null,
            CorrectionAge = recorded.CorrectionAgeSeconds,
            CoordinateEpoch = recorded.CoordinateEpoch,
            PositionCorrection = located.Correction,
        };
    }

    private static string Words(PileJudgement judgement, Func<CheckResult, bool> which)
        => string.Join(' ', judgement.Checks.Where(which).Select(check => check.Check));

    private static int Srid(DerivedSite site) => site.History.ProjectedCrsCode ?? 0;

    private static Point Place(ProjectedCoordinate at, int srid) => new(at.EastingMetres, at.NorthingMetres) { SRID = srid };

    private static DateOnly Day(LocalDate day) => new(day.Year, day.Month, day.Day);
}
