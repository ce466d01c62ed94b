using NodaTime;
using Npgsql;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.SiteGrid;

/// <summary>The control points over time: where each was adopted, where it was found since, and whether it moved.</summary>
public sealed class ReadObservations(SiteHistories histories, NpgsqlDataSource store)
{
    /// <summary>The marks of the adjustment in force with their observations; null before an adjustment is adopted.</summary>
    [Needs(Right.See)]
    public async Task<MarksOverTime?> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        SiteHistory history = await histories.ReadAsync(permit.Site, cancellation);
        if (history.Settings is not { } settings || history.Adjustments is not [.., { } inForce]) return null;
        IReadOnlyDictionary<string, string> names = await RecordsIn.RecorderNames.ReadAsync(
            store, history.Observations.SelectMany(one => new[] { one.RecordedBy, one.Withdrawal?.By }), cancellation);
        SiteFrames frames = new(history.Adjustments);
        return new MarksOverTime(settings, frames.Current.Crs, inForce,
            [.. inForce.ControlPoints.Select(mark => Follow(mark, history.Observations.Where(one => one.Body.Mark == mark.Name), frames, names))]);
    }

    private static MarkOverTime Follow(
        ControlPoint mark, IEnumerable<ControlPointObservation> observations, SiteFrames frames, IReadOnlyDictionary<string, string> names)
    {
        List<ObservedMark> followed = [];
        (ProjectedCoordinate Place, double Deviation)? before = null;
        foreach (ControlPointObservation one in observations.OrderBy(one => one.Body.ObservedOn).ThenBy(one => one.Sequence))
        {
            ProjectedCoordinate? found = Place(one.Body, frames);
            double deviation = one.Body.StandardDeviationMetres;
            followed.Add(new ObservedMark(
                one.Sequence, one.Body, found,
                found is { } place ? ControlPointMovement.Test(mark.Projected, mark.StandardDeviationMetres, place, deviation) : null,
                found is { } later && before is { } earlier && one.Withdrawal is null ? ControlPointMovement.Test(earlier.Place, earlier.Deviation, later, deviation) : null,
                one.RecordedAt, names.GetValueOrDefault(one.RecordedBy, one.RecordedBy), one.Withdrawal));
            if (found is { } last && one.Withdrawal is null) before = (last, deviation);
        }

        return new MarkOverTime(mark, followed);
    }

    /// <summary>The place in the projected CRS in force; null where it was observed on another datum, between which nothing is shifted unasked.</summary>
    private static ProjectedCoordinate? Place(ControlPointObservedBody observed, SiteFrames frames)
    {
        CoordinateService then = frames.Of(observed.AdjustmentRevision), now = frames.Current;
        bool same = then.Crs.WellKnownText == now.Crs.WellKnownText;
        if (same && observed.Position.Frame == Frame.ProjectedCrs) return new ProjectedCoordinate(observed.Position.First, observed.Position.Second);
        if (!same && then.Crs.DatumName != now.Crs.DatumName) return null;
        GeographicCoordinate place = observed.Position.Frame == Frame.Geographic
            ? new GeographicCoordinate(observed.Position.First, observed.Position.Second)
            : then.ToGeographic(new ProjectedCoordinate(observed.Position.First, observed.Position.Second));
        return now.ToProjected(place);
    }
}

/// <summary>The control points over time.</summary>
/// <param name="Settings">Settings in force.</param>
/// <param name="Crs">The projected CRS in force.</param>
/// <param name="InForce">The adjustment in force.</param>
/// <param name="Marks">Its marks, in its order.</param>
public sealed record MarksOverTime(SiteSettings Settings, ProjectedCrs Crs, AdjustmentBody InForce, IReadOnlyList<MarkOverTime> Marks);

/// <summary>One control point over time.</summary>
/// <param name="Adopted">The mark as the adjustment in force has it.</param>
/// <param name="Observations">What was found since, by day; the withdrawn ones too.</param>
public sealed record MarkOverTime(ControlPoint Adopted, IReadOnlyList<ObservedMark> Observations)
{
    /// <summary>The last observation that counts and can be compared.</summary>
    public ObservedMark? Latest => Observations.LastOrDefault(one => one.Withdrawal is null && one.SinceAdopted is not null);
}

/// <summary>One observation of a control point.</summary>
/// <param name="Sequence">Sequence of its record.</param>
/// <param name="Body">What it says.</param>
/// <param name="Place">The place in the projected CRS in force; null where it cannot be compared.</param>
/// <param name="SinceAdopted">Movement since the mark was adopted.</param>
/// <param name="SinceBefore">Movement since the observation before.</param>
/// <param name="RecordedAt">When it was recorded.</param>
/// <param name="RecordedBy">By whom, as a name.</param>
/// <param name="Withdrawal">How it was withdrawn, or null while it counts.</param>
public sealed record ObservedMark(
    long Sequence, ControlPointObservedBody Body, ProjectedCoordinate? Place, ControlPointMovement? SinceAdopted, ControlPointMovement? SinceBefore,
    Instant RecordedAt, string RecordedBy, Withdrawal? Withdrawal);
