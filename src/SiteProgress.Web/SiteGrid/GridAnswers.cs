using NodaTime.Text;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Exchange;
using SiteProgress.Jobs.SiteGrid;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.SiteGrid;

/// <summary>A published shift as it is used at the site.</summary>
internal sealed record ShiftAnswer(int EpsgCode, string Name, double AccuracyMetres, bool UsedBackwards, bool DeclaredEqual, int OtherEpsgCode, string OtherName)
{
    public static ShiftAnswer Of(DatumLink link) => new(
        link.Shift.EpsgCode, link.Shift.Name, link.Shift.AccuracyMetres, !link.LeadsToSite, link.Shift.IsNull, link.Other.EpsgCode, link.Other.Name);
}

/// <summary>Another geographic system that published transformations link with the site's.</summary>
internal sealed record LinkedAnswer(int EpsgCode, string Name, IReadOnlyList<ShiftAnswer> Shifts, string? BetterByGridFile, double? GridFileAccuracyMetres)
{
    public static LinkedAnswer Of(LinkedSystem other) => new(
        other.OtherCode, other.OtherName, [.. other.Links.Select(ShiftAnswer.Of)], other.BetterByGrid?.Name, other.BetterByGrid?.AccuracyMetres);
}

/// <summary>The control points over time. Differences are found minus adopted, metres.</summary>
internal sealed record MarksAnswer(int AdjustmentRevision, IReadOnlyList<MarkOverTimeAnswer> ControlPoints)
{
    public static MarksAnswer Of(MarksOverTime marks) => new(marks.InForce.Adjustment.Revision, [.. marks.Marks.Select(MarkOverTimeAnswer.Of)]);
}

/// <summary>One control point with what was observed of it.</summary>
internal sealed record MarkOverTimeAnswer(string Name, double EastingMetres, double NorthingMetres, double StandardDeviationMetres, IReadOnlyList<ObservedAnswer> Observations)
{
    public static MarkOverTimeAnswer Of(MarkOverTime mark) => new(
        mark.Adopted.Name, mark.Adopted.Projected.EastingMetres, mark.Adopted.Projected.NorthingMetres, mark.Adopted.StandardDeviationMetres,
        [.. mark.Observations.Select(ObservedAnswer.Of)]);
}

/// <summary>One observation.</summary>
internal sealed record ObservedAnswer(
    long Record, string ObservedOn, double? EastingMetres, double? NorthingMetres, double StandardDeviationMetres, double? EastMovedMetres, double? NorthMovedMetres,
    bool? HasMovedSinceAdopted, bool? HasMovedSinceBefore, string Method, string RecordedBy, string? Withdrawn)
{
    public static ObservedAnswer Of(ObservedMark one) => new(
        one.Sequence, LocalDatePattern.Iso.Format(one.Body.ObservedOn), one.Place?.EastingMetres, one.Place?.NorthingMetres, one.Body.StandardDeviationMetres,
        one.SinceAdopted?.EastMetres, one.SinceAdopted?.NorthMetres, one.SinceAdopted?.HasMoved, one.SinceBefore?.HasMoved,
        one.Body.Method, one.RecordedBy, one.Withdrawal?.Reason);
}

/// <summary>A proposal of an adjustment.</summary>
/// <param name="ControlPoints">The list as text, with a header.</param>
/// <param name="Kind">similarity, rigid or affine.</param>
/// <param name="FixedScale">Scale of a rigid fit.</param>
/// <param name="LeftHanded">True where the second axis lies clockwise of the first.</param>
/// <param name="StandardDeviationMetres">Standard deviation where a line gives none.</param>
internal sealed record ProposalRequest(string? ControlPoints, string? Kind, double? FixedScale, bool LeftHanded, double? StandardDeviationMetres);

/// <summary>A proposal worked out.</summary>
internal sealed record ProposalAnswer(
    IReadOnlyList<string> Problems, string? Refusal, int? Revision, double? Scale, double? RotationDegrees, int? Redundancy, double? StandardErrorOfUnitWeight,
    IReadOnlyList<MarkAnswer> ControlPoints, IReadOnlyList<string> Warnings, double? LargestShiftMetres, int? PilesChangedByAdopting, int? PilesChangedIfPlacedAnew)
{
    public static ProposalAnswer Of(WorkedOutProposal worked) => new(
        [.. worked.Reading.Problems.Select(problem => problem.Sentence)], worked.Refusal, worked.Body?.Adjustment.Revision, worked.Body?.Adjustment.Scale, worked.Body?.Adjustment.RotationDegrees,
        worked.Quality?.Redundancy, worked.Quality?.StandardErrorOfUnitWeight,
        [.. worked.Body?.ControlPoints.Select((mark, index) => MarkAnswer.Of(mark, worked.Quality?.Residuals[index])) ?? []],
        worked.Warnings, worked.Effect?.Piles.Max(pile => pile.ShiftMetres), worked.Effect?.ChangedByAdopting, worked.Effect?.ChangedIfPlacedAnew);
}

/// <summary>Observations of control points as a file.</summary>
internal static class ObservationRows
{
    public static void Write(TableWriter table, MarksOverTime marks)
    {
        table.Header(
            "Name", "Observed on", "Easting [m]", "Northing [m]", "Standard deviation [m]", "East since adopted [m]", "North since adopted [m]",
            "Moved since adopted", "Moved since the one before", "Method", "Recorded by", "Withdrawn");
        foreach (MarkOverTime mark in marks.Marks)
        {
            foreach (ObservedMark one in mark.Observations)
            {
                table.Text(mark.Adopted.Name).Text(LocalDatePattern.Iso.Format(one.Body.ObservedOn)).Number(one.Place?.EastingMetres, 4).Number(one.Place?.NorthingMetres, 4)
                    .Number(one.Body.StandardDeviationMetres, 4).Number(one.SinceAdopted?.EastMetres, 4).Number(one.SinceAdopted?.NorthMetres, 4)
                    .Text(Word(one.SinceAdopted?.HasMoved)).Text(Word(one.SinceBefore?.HasMoved)).Text(one.Body.Method).Text(one.RecordedBy).Text(one.Withdrawal?.Reason).EndRow();
            }
        }
    }

    private static string? Word(bool? moved) => moved switch { true => "yes", false => "not shown", null => null };
}

/// <summary>What a proposed adjustment means for each pile, as a file.</summary>
internal static class EffectRows
{
    public static void Write(TableWriter table, AdjustmentEffect effect)
    {
        table.Header(
            "Pile", "Zone", "Easting now [m]", "Northing now [m]", "Easting then [m]", "Northing then [m]", "Moves east [m]", "Moves north [m]",
            "State now", "State after adopting", "State if records were placed by it", "Radial now [m]", "Radial if placed by it [m]", "Changes by adopting", "Changes if placed by it");
        foreach (PileEffect pile in effect.Piles)
        {
            table.Text(pile.Number).Text(pile.Zone).Number(pile.DesignNow.EastingMetres, 4).Number(pile.DesignNow.NorthingMetres, 4)
                .Number(pile.DesignThen.EastingMetres, 4).Number(pile.DesignThen.NorthingMetres, 4).Number(pile.ShiftEastMetres, 4).Number(pile.ShiftNorthMetres, 4)
                .Text(StateWords.Of(pile.StateNow)).Text(StateWords.Of(pile.StateThen)).Text(StateWords.Of(pile.StatePlacedAnew))
                .Number(pile.RadialNowMetres, 4).Number(pile.RadialPlacedAnewMetres, 4)
                .Text(pile.ChangesByAdopting ? "yes" : "no").Text(pile.ChangesIfPlacedAnew ? "yes" : "no").EndRow();
        }
    }
}
