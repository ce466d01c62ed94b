using SiteProgress.Core.Checks;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;

namespace SiteProgress.Core.Derivation;

/// <summary>
/// Works out the derived state of a site from its records alone. The same records give the same state, whatever order
/// their batches came in.
/// </summary>
public static class SiteDerivation
{
    /// <summary>Version of the rules. Any change that may change a result raises it.</summary>
    public static readonly int RulesVersion = 5;

    /// <summary>Derives the state of a site.</summary>
    public static DerivedSite Derive(SiteHistory history)
    {
        ArgumentNullException.ThrowIfNull(history);
        if (history.Settings is not { } settings || history.Adjustments.Count == 0)
        {
            return new DerivedSite(history, null, [], [], [], []) { Progress = DerivedProgress.Of(history) };
        }

        SiteFrames frames = new(history.Adjustments);
        WorkingDays days = new(settings);
        TreatmentLog treatment = TreatmentLog.Of(history.Treatments);
        SiteDesign design = SiteDesign.Of(history, frames, settings, treatment.Additional);
        RecordedCircumstances circumstances = new(history);
        BatchRow<Installation>[] rows = circumstances.WithClocksRight(history.Installed.ToArray());
        CorrectedPositions corrected = new(history, frames);
        DecidedMatches decided = new(history, design);
        LocatedInstallation[] located = Array.ConvertAll(Locate(rows, history, frames, decided), one => corrected.Apply(circumstances.Complete(one)));
        DesignIndex index = new(design.Entries(), settings);
        IReadOnlyList<InstallationMatch> matches = [.. NumberAndPosition.Settle(located, index, one => AsProjected(one, frames)).Select((match, place) => decided.Apply(located[place], match, index))];
        BatchRow<LoggedPile>[] logs = circumstances.WithClocksRight(history.Logged.ToArray());
        IReadOnlyList<LogJoin> joins = LogJoins.Of(Array.ConvertAll(logs, log => (log.Sequence, log.Value)), located, matches);
        located = WithLogs(located, logs, joins);
        if (design.IsRenumbered) treatment = TreatmentLog.Of(TreatmentNumbers.Translate(history.Treatments, design.NumberNow));
        (PileJudgement Judgement, PileDesign Design)[] byDesign = Judge(design, located, matches, settings, frames.Rotation, treatment, new StandingLogs(history));
        PileJudgement[] judged = Array.ConvertAll(byDesign, pile => pile.Judgement);
        IReadOnlyList<SandPeriod> sand = SandAccount.Of(history.Deliveries.Select(row => row.Value), SandUses.Of(history, located, matches, judged), settings.SandAgreement?.WeekRatio);
        TreatedSite treated = TreatedSite.Of(treatment, settings, judged, located, sand, design.IsRenumbered ? design.NumberAt : null);
        HashSet<long> standing = judged.SelectMany(pile => pile.Standing).Select(part => part.Installation.Sequence).ToHashSet();
        return new DerivedSite(
            history,
            frames,
            Piles(byDesign, judged, treated, frames, days),
            Installations(rows, located, matches, frames, days, standing, circumstances),
            ProductionByDay.Of(located, matches, judged, days),
            PositionChecks(history, frames, corrected, located))
        {
            Design = design,
            Treated = treated,
            Progress = DerivedProgress.Of(history),
            SandPeriods = sand,
            Logs = DerivedLog.Of(logs, joins, located, matches, judged, days),
        };
    }

    private static LocatedInstallation[] WithLogs(LocatedInstallation[] located, BatchRow<LoggedPile>[] logs, IReadOnlyList<LogJoin> joins)
    {
        if (logs.Length == 0) return located;
        Dictionary<long, JoinedLog> counting = logs.Zip(joins).Where(one => one.Second.Outcome == LogJoinOutcome.Joined)
            .ToDictionary(one => one.Second.Installation!.Value, one => new JoinedLog(one.First.Sequence, one.First.Value.Sha256, one.First.Value.FirstSample));
        return Array.ConvertAll(located, one => counting.TryGetValue(one.Sequence, out JoinedLog? log) ? one with { Log = log } : one);
    }

    /// <summary>A position said to be on the site grid, read as one of the projected CRS.</summary>
    private static SiteCoordinate? AsProjected(LocatedInstallation installation, SiteFrames frames)
        => (installation.Recorded.AtEndOfPenetration ?? installation.Recorded.TouchDown) is { Frame: Frame.SiteGrid } said
            ? frames.ToSite([said with { Frame = Frame.ProjectedCrs }], installation.AdjustmentRevision)[0]
            : null;

    private static LocatedInstallation[] Locate(BatchRow<Installation>[] rows, SiteHistory history, SiteFrames frames, DecidedMatches decided)
    {
        IReadOnlyDictionary<long, int> revisions = history.AdjustmentRevisions;
        LocatedInstallation[] located = new LocatedInstallation[rows.Length];
        foreach (IGrouping<int, int> together in Enumerable.Range(0, rows.Length).GroupBy(index => revisions[rows[index].Batch]))
        {
            int[] places = together.ToArray();
            SiteCoordinate?[] touchDown = frames.ToSite(Array.ConvertAll(places, place => decided.Read(rows[place].Sequence, rows[place].Value.TouchDown)), together.Key);
            SiteCoordinate?[] deepest = frames.ToSite(Array.ConvertAll(places, place => decided.Read(rows[place].Sequence, rows[place].Value.AtEndOfPenetration)), together.Key);
            for (int index = 0; index < places.Length; index++)
            {
                BatchRow<Installation> row = rows[places[index]];
                located[places[index]] = new LocatedInstallation(
                    row.Sequence, row.Batch, together.Key, row.Value, touchDown[index], deepest[index]);
            }
        }

        return located;
    }

    private static (PileJudgement Judgement, PileDesign Design)[] Judge(
        SiteDesign design,
        LocatedInstallation[] located,
        IReadOnlyList<InstallationMatch> matches,
        SiteSettings settings,
        GridRotation rotation,
        TreatmentLog treatment,
        StandingLogs logs)
    {
        ILookup<string, LocatedInstallation> attempts = located
            .Zip(matches)
            .Where(one => one.Second.Adopted is not null)
            .ToLookup(one => one.Second.Adopted!, one => one.First, StringComparer.OrdinalIgnoreCase);
        Dictionary<string, JudgingContract> contracts = settings.Zones.ToDictionary(
            zone => zone.Code, zone => Contract(zone, settings, rotation, logs), StringComparer.OrdinalIgnoreCase);
        BuiltByDesign judge = new(contracts, rotation, treatment);
        return [.. design.Piles.Select(pile => judge.Judge(pile, attempts[pile.Number].ToArray())).OfType<(PileJudgement, PileDesign)>()];
    }

    private static JudgingContract Contract(Zone zone, SiteSettings settings, GridRotation rotation, StandingLogs logs) => new(
        zone, rotation, settings.FindSandSource(zone.SandSource)?.VolumeChangeFactor, zone.SandSource, settings.DefaultPositionUncertaintyMetres, settings.PositionNeeds)
    {
        SandAgreementRatio = settings.SandAgreement?.PileRatio,
        ReadLog = (pile, part, cutOff) => logs.Of(pile, zone, part, cutOff),
    };

    private static DerivedPile[] Piles((PileJudgement Judgement, PileDesign Design)[] byDesign, PileJudgement[] judged, TreatedSite treated, SiteFrames frames, WorkingDays days)
    {
        ProjectedCoordinate[] projected = new ProjectedCoordinate[judged.Length];
        GeographicCoordinate[] geographic = new GeographicCoordinate[judged.Length];
        frames.Current.SiteToProjected(Array.ConvertAll(judged, pile => pile.Pile.Position), projected);
        frames.Current.ProjectedToGeographic(projected, geographic);
        return [.. byDesign.Select((one, index) =>
        {
            PileTreatment treatment = treated.Find(one.Judgement.Pile.Number)!;
            PileJudgement pile = one.Judgement.State == treatment.State ? one.Judgement : one.Judgement with { State = treatment.State };
            return Pile(pile, one.Design, treatment, projected[index], geographic[index], frames, days);
        })];
    }

    private static DerivedPile Pile(
        PileJudgement pile, PileDesign design, PileTreatment treatment, ProjectedCoordinate projected, GeographicCoordinate geographic, SiteFrames frames, WorkingDays days)
        => new(
            pile,
            projected,
            geographic,
            AsBuilt(pile, frames),
            pile.Standing.Count > 0 && pile.Standing[^1].Installation.Recorded.End is { } end ? days.At(end) : null)
        {
            Treatment = treatment,
            Design = design,
        };

    /// <summary>Where a pile stands in the projected CRS: a record keeps the adjustment it was made with, so a later one does not move what is built.</summary>
    private static ProjectedCoordinate? AsBuilt(PileJudgement pile, SiteFrames frames)
        => pile.Position is { } position
            ? frames.InCrsInForce(position.AsBuilt, pile.Standing.First(part => part.Installation.Sequence == position.Sequence).Installation.AdjustmentRevision)
            : null;

    private static DerivedInstallation[] Installations(
        BatchRow<Installation>[] rows,
        LocatedInstallation[] located,
        IReadOnlyList<InstallationMatch> matches,
        SiteFrames frames,
        WorkingDays days,
        HashSet<long> standing,
        RecordedCircumstances circumstances)
    {
        DerivedInstallation[] derived = new DerivedInstallation[rows.Length];
        for (int index = 0; index < rows.Length; index++)
        {
            CoordinateService service = frames.Of(located[index].AdjustmentRevision);
            ProjectedCoordinate? own = located[index].Position is { } at ? service.Adjustment.Forward(at) : null;
            derived[index] = new DerivedInstallation(
                located[index],
                rows[index].Line,
                matches[index],
                located[index].Position is { } position ? frames.InCrsInForce(position, located[index].AdjustmentRevision) : null,
                own is { } point ? Geographic(service, point) : null,
                rows[index].Value.End is { } end ? days.At(end) : null,
                standing.Contains(rows[index].Sequence))
            {
                Clock = circumstances.ClockOf(located[index].Sequence),
                Levels = circumstances.LevelsOf(located[index].Sequence),
            };
        }

        return derived;
    }

    private static GeographicCoordinate? Geographic(CoordinateService service, ProjectedCoordinate point)
    {
        GeographicCoordinate geographic = service.ToGeographic(point);
        return double.IsFinite(geographic.LatitudeDegrees) && double.IsFinite(geographic.LongitudeDegrees) ? geographic : null;
    }

    private static DerivedPositionCheck[] PositionChecks(SiteHistory history, SiteFrames frames, CorrectedPositions corrected, LocatedInstallation[] located)
    {
        ILookup<string, LocatedInstallation> moved = located.Where(one => one.Correction is not null).ToLookup(one => one.Recorded.PileNumber, StringComparer.OrdinalIgnoreCase);
        IReadOnlyDictionary<long, int> revisions = history.AdjustmentRevisions;
        return history.Checked.Select(row =>
        {
            SiteCoordinate?[] both = frames.ToSite([row.Value.Recorded, row.Value.Measured], revisions[row.Batch]);
            SiteCoordinate recorded = corrected.Apply(row.Value, both[0]!.Value, row.Value.PileNumber is { } number ? moved[number] : []);
            return new DerivedPositionCheck(row, PositionDeviation.Between(both[1]!.Value, recorded, frames.Rotation));
        }).ToArray();
    }
}
