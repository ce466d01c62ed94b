using System.Globalization;
using NodaTime;
using NodaTime.Text;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.SiteGrid;

/// <summary>An observation as it was typed.</summary>
/// <param name="Mark">Name of the control point.</param>
/// <param name="Frame">Frame of the position: the projected CRS, or geographic.</param>
/// <param name="First">Easting or latitude.</param>
/// <param name="Second">Northing or longitude.</param>
/// <param name="StandardDeviation">Standard deviation of one coordinate, metres.</param>
/// <param name="ObservedOn">The day, as 2026-04-11.</param>
/// <param name="Method">How it was observed.</param>
public sealed record ObservationEntry(string Mark, Frame Frame, string First, string Second, string StandardDeviation, string ObservedOn, string Method);

/// <summary>Records that a control point was observed again. It changes no adjustment; it shows whether the mark moved.</summary>
public sealed class ObserveControlPoint(SiteRecorder recorder, TimeProvider clock)
{
    /// <summary>A mark that lies farther from where it was adopted is another mark or a mistake (common practice, no source).</summary>
    private const double FarthestMetres = 10;

    private const int MostMethodCharacters = 200;

    /// <summary>Records an observation.</summary>
    /// <returns>Null, or why nothing was recorded.</returns>
    [Needs(Right.KeepSurvey)]
    public async Task<string?> RunAsync(Permit permit, ObservationEntry entry, CancellationToken cancellation)
    {
        permit.Demand(Right.KeepSurvey);
        ArgumentNullException.ThrowIfNull(entry);
        (RecordedPosition? position, string? problem) = PointText.Read(entry.Frame, entry.First, entry.Second);
        if (entry.Frame == Frame.SiteGrid) problem = "A control point is observed in the projected CRS or by latitude and longitude.";
        (double? deviation, string? deviationProblem) = PointText.Deviation(entry.StandardDeviation);
        ParseResult<LocalDate> day = LocalDatePattern.Iso.Parse(entry.ObservedOn.Trim());
        string? wrong = problem ?? deviationProblem
            ?? (day.Success ? null : $"\"{entry.ObservedOn.Trim()}\" is not a day; expected one such as 2026-04-11.")
            ?? (string.IsNullOrWhiteSpace(entry.Method) ? "Say how the mark was observed; it is kept with the record." : null)
            ?? (entry.Method.Trim().Length > MostMethodCharacters ? $"How it was observed is longer than {MostMethodCharacters} characters; say it shorter." : null);
        if (wrong is not null) return wrong;

        string? refusal = null;
        await recorder.AppendAsync(
            permit,
            Right.KeepSurvey,
            history =>
            {
                refusal = WhyNot(history, entry.Mark, position!.Value, day.Value, Instant.FromDateTimeOffset(clock.GetUtcNow()));
                return refusal is null
                    ? [new ControlPointObservedBody(entry.Mark, position.Value, history.Adjustments[^1].Adjustment.Revision, deviation!.Value, day.Value, entry.Method.Trim())]
                    : [];
            },
            cancellation);
        return refusal;
    }

    /// <summary>Null, or why an observation cannot be one of this mark.</summary>
    internal static string? WhyNot(SiteHistory history, string mark, RecordedPosition position, LocalDate day, Instant now)
    {
        if (history.Adjustments is not [.., { } inForce]) return "The site has no adjustment yet, and so no control points.";
        if (inForce.ControlPoints.FirstOrDefault(one => one.Name == mark) is not { } adopted)
            return $"There is no control point \"{mark}\" in the adjustment in force; its marks are {string.Join(", ", inForce.ControlPoints.Select(one => one.Name).Take(20))}.";
        LocalDate today = now.InZone(DateTimeZoneProviders.Tzdb[history.Settings!.TimeZone]).Date;
        if (day > today || day.Year < 1900) return string.Create(CultureInfo.InvariantCulture, $"The day {LocalDatePattern.Iso.Format(day)} is not one on which the mark can have been observed; today is {LocalDatePattern.Iso.Format(today)}.");
        CoordinateService service = SiteAdjustments.Service(inForce);
        ProjectedCoordinate found = position.Frame == Frame.Geographic
            ? service.ToProjected(new GeographicCoordinate(position.First, position.Second))
            : new ProjectedCoordinate(position.First, position.Second);
        double away = Distance(found, adopted.Projected);
        return away <= FarthestMetres ? null : TooFar(service, inForce, adopted, position, found, away);
    }

    private static string TooFar(CoordinateService service, AdjustmentBody inForce, ControlPoint adopted, RecordedPosition position, ProjectedCoordinate found, double away)
    {
        GeographicCoordinate expected = service.ToGeographic(adopted.Projected);
        string? looksLike = position.Frame == Frame.Geographic
            ? FrameSuspicion.Explain(service.Crs, new GeographicCoordinate(position.First, position.Second), expected, 1_000)
            : FrameSuspicion.Explain(service.Crs, found, expected, 1_000);
        ControlPoint nearest = inForce.ControlPoints.MinBy(one => Distance(found, one.Projected))!;
        string other = looksLike ?? (Distance(found, nearest.Projected) <= FarthestMetres
            ? $"It lies at {nearest.Name}: was the wrong mark chosen?"
            : "A mark cannot have moved so far; it is another point or a mistake.");
        string far = double.IsFinite(away) ? string.Create(CultureInfo.InvariantCulture, $"{away:0.0} m from") : "nowhere near";
        return $"The position lies {far} {adopted.Name} as adopted. {other}";
    }

    private static double Distance(ProjectedCoordinate one, ProjectedCoordinate other)
        => Math.Sqrt(Math.Pow(one.EastingMetres - other.EastingMetres, 2) + Math.Pow(one.NorthingMetres - other.NorthingMetres, 2));
}
