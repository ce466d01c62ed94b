using System.Text.Json.Serialization;
using SiteProgress.Core.Deviations;

namespace SiteProgress.Jobs.Deviations;

/// <summary>What a selection of built piles shows about where they went.</summary>
/// <param name="Selection">What was asked for.</param>
/// <param name="SequenceOfRecords">Sequence of the last record all this follows from.</param>
/// <param name="TimeZone">IANA time zone of the site; null before it has settings.</param>
/// <param name="Figures">Figures of the judged piles; null when none is judged.</param>
/// <param name="NotJudged">Built piles of the selection whose position is not judged.</param>
/// <param name="Casings">Figures by barge and casing.</param>
/// <param name="CasingDays">Mean deviation by barge, casing and working day.</param>
/// <param name="LimitsMetres">Radial limits in force in the selection, ascending.</param>
/// <param name="Points">Every built pile that has a position on record.</param>
/// <param name="Choices">What can be asked for on this site.</param>
public sealed record DeviationReview(
    DeviationSelection Selection,
    long SequenceOfRecords,
    string? TimeZone,
    DeviationFigures? Figures,
    int NotJudged,
    IReadOnlyList<CasingDeviation> Casings,
    IReadOnlyList<CasingDay> CasingDays,
    IReadOnlyList<double> LimitsMetres,
    [property: JsonIgnore] IReadOnlyList<DeviationPoint> Points,
    ReviewChoices Choices);

/// <summary>Figures of one casing.</summary>
/// <param name="Barge">Barge.</param>
/// <param name="Casing">Casing; null where the records do not say.</param>
/// <param name="SetUps">Different set-ups the judged piles were built from.</param>
/// <param name="NotJudged">Built piles that are not judged.</param>
/// <param name="Figures">Figures; null when no pile is judged.</param>
public sealed record CasingDeviation(string Barge, int? Casing, int SetUps, int NotJudged, DeviationFigures? Figures);

/// <summary>Mean deviation of one casing on one working day, judged piles only.</summary>
/// <param name="Barge">Barge.</param>
/// <param name="Casing">Casing; null where the records do not say.</param>
/// <param name="WorkingDay">Working day.</param>
/// <param name="Piles">How many piles.</param>
/// <param name="MeanEastMetres">Mean dE.</param>
/// <param name="MeanNorthMetres">Mean dN.</param>
public sealed record CasingDay(string Barge, int? Casing, DateOnly WorkingDay, int Piles, double MeanEastMetres, double MeanNorthMetres)
{
    /// <summary>Length of the mean deviation, metres.</summary>
    public double MeanVectorMetres => Math.Sqrt((MeanEastMetres * MeanEastMetres) + (MeanNorthMetres * MeanNorthMetres));
}

/// <summary>One built pile with a position on record.</summary>
/// <param name="Number">Pile number.</param>
/// <param name="EastMetres">dE.</param>
/// <param name="NorthMetres">dN.</param>
/// <param name="RadialMetres">Radial deviation.</param>
/// <param name="LimitMetres">Radial limit.</param>
/// <param name="IsJudged">True when it is held against the limit.</param>
public readonly record struct DeviationPoint(
    string Number, double EastMetres, double NorthMetres, double RadialMetres, double LimitMetres, bool IsJudged)
{
    /// <summary>True when it is judged and beyond the limit.</summary>
    public bool IsBeyond => IsJudged && !AgainstLimit.IsAtMost(RadialMetres, LimitMetres);
}

/// <summary>What can be asked for.</summary>
/// <param name="Zones">Zones with built piles.</param>
/// <param name="Barges">Barges that built.</param>
/// <param name="Casings">Casings that built.</param>
/// <param name="FirstDay">First working day with a built pile.</param>
/// <param name="LastDay">Last working day with a built pile.</param>
public sealed record ReviewChoices(
    IReadOnlyList<string> Zones, IReadOnlyList<string> Barges, IReadOnlyList<int> Casings, DateOnly? FirstDay, DateOnly? LastDay);
