using System.Globalization;
using NodaTime.Text;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.History;

/// <summary>What a record of control points, projected systems or corrected positions says, in a sentence.</summary>
internal static class SurveyHistoryWords
{
    /// <summary>The sentence, the reason and what it touches; null for a record of another kind.</summary>
    public static (string What, string? Why, HistoryTarget? Touches)? Of(RecordBody body) => body switch
    {
        ControlPointObservedBody one => (
            Say($"{one.Mark} observed on {LocalDatePattern.Iso.Format(one.ObservedOn)}, ±{one.StandardDeviationMetres * 1000:0.#} mm ({one.Method}): {Place(one.Position)}."), null, new(HistoryPageName.ControlPoints, "")),
        ObservationWithdrawnBody one => (Say($"The observation of record {one.Observation} was withdrawn."), one.Reason, new(HistoryPageName.ControlPoints, "")),
        ProjectedCrsOfferedBody one => (
            Say($"A projected CRS put at the surveyor's disposal: {(one.EpsgCode > 0 ? Say($"EPSG:{one.EpsgCode}") : one.CrsWkt.Split('"') is [_, { } name, ..] ? name : "a pasted definition")}."),
            one.Reason, new(HistoryPageName.ProjectedCrs, "")),
        CorrectionProposedBody one => (
            Say($"Proposed to correct the positions of {one.Barge}{(one.Casing is { } casing ? Say($", casing {casing}") : "")} by {one.ForwardMetres * 1000:+0;-0;0} mm forward and {one.StarboardMetres * 1000:+0;-0;0} mm starboard, {one.Installations.Count} records, on {one.CheckMeasurements.Count} check measurements."),
            one.Reason, new(HistoryPageName.Corrections, "")),
        CorrectionDecidedBody one => (Say($"The correction of record {one.Correction} was {(one.Adopted ? "adopted" : "refused")}."), one.Reason, new(HistoryPageName.Corrections, "")),
        CorrectionWithdrawnBody one => (Say($"The correction of record {one.Correction} was withdrawn."), one.Reason, new(HistoryPageName.Corrections, "")),
        _ => null,
    };

    private static string Place(RecordedPosition at) => at.Frame switch
    {
        Frame.Geographic => Say($"{at.First:0.00000000}°, {at.Second:0.00000000}°"),
        Frame.ProjectedCrs => Say($"E {at.First:0.000} m, N {at.Second:0.000} m"),
        _ => Say($"site grid {at.First:0.000} m, {at.Second:0.000} m"),
    };

    private static string Say(FormattableString sentence) => sentence.ToString(CultureInfo.InvariantCulture);
}
