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
/// <param name="Limits">Different limits of positions in force in the selection, by radial limit.</param>
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
    [property: JsonIgnore] IReadOnlyList<PositionLimit> Limits,
    [property: JsonIgnore] IReadOnlyList<DeviationPoint> Points,
    ReviewChoices Choices)
{
    /// <summary>Radial limits in force in the selection, ascending.</summary>
    public IReadOnlyList<double> LimitsMetres => Radial(limit => limit.SetsRadial ? limit.RadialMetres : null);

    /// <summary>The site's radial alerts in the selection, ascending.</summary>
    public IReadOnlyList<double> AlertsMetres => Radial(limit => limit.AlertRadialMetres);

    /// <summary>Limits along the axes of the site grid in the selection.</summary>
    public IReadOnlyList<AxisLimits> AxisLimits => Limits.Where(limit => limit.SetsAxes).Select(limit => new AxisLimits(limit.AlongMetres, limit.AcrossMetres)).Distinct().ToArray();

    /// <summary>Top levels, as-built minus design; null when none is on record.</summary>
    public LevelFigures? Top { get; init; }

    /// <summary>Tip levels, as-built minus design, of piles whose design names one; null when none is on record.</summary>
    public LevelFigures? Tip { get; init; }

    /// <summary>Inclinations as recorded, of piles whose zone sets a limit; null when none is on record.</summary>
    public InclinationFigures? Inclination { get; init; }

    /// <summary>How many judged piles lie how far off.</summary>
    public IReadOnlyList<RadialBin> Histogram { get; init; } = [];

    /// <summary>Each casing over time, forward and starboard, with control limits.</summary>
    public IReadOnlyList<CasingChart> Charts { get; init; } = [];

    /// <summary>Deviations in plan; means of squares where the piles are many.</summary>
    [JsonIgnore]
    public VectorPlan Vectors { get; init; } = new(0, []);

    private double[] Radial(Func<PositionLimit, double?> of) => Limits.Select(of).OfType<double>().Distinct().Order().ToArray();
}

/// <summary>Limits along the axes of the site grid, either way; null where none is set.</summary>
/// <param name="AlongMetres">Along the first axis, metres.</param>
/// <param name="AcrossMetres">Along the second axis, metres.</param>
public sealed record AxisLimits(double? AlongMetres, double? AcrossMetres);

/// <summary>Judged piles whose radial deviation lies between two values.</summary>
/// <param name="FromMetres">From here.</param>
/// <param name="BelowMetres">To below here; null for all beyond.</param>
/// <param name="Piles">How many.</param>
public sealed record RadialBin(double FromMetres, double? BelowMetres, int Piles);

/// <summary>One casing over time: exponentially weighted means of its deviations after the last pile of each working day.</summary>
/// <param name="Barge">Barge.</param>
/// <param name="Casing">Casing.</param>
/// <param name="InBargeAxes">True when the two components are forward and starboard; else east and north, as no heading is known.</param>
/// <param name="LimitMetres">Control limit either side of zero, metres: three standard deviations of a weighted mean.</param>
/// <param name="Days">The days.</param>
public sealed record CasingChart(string Barge, int Casing, bool InBargeAxes, double LimitMetres, IReadOnlyList<CasingChartDay> Days)
{
    /// <summary>How far each pile goes with the one before it forward (or east), -1 to 1; null where that cannot be said.</summary>
    public double? FirstAutocorrelation { get; init; }

    /// <summary>The same to starboard (or north).</summary>
    public double? SecondAutocorrelation { get; init; }

    /// <summary>Days at whose end a weighted mean lay outside the control limits.</summary>
    public int DaysOutside => Days.Count(day => Math.Abs(day.FirstMetres) > LimitMetres || Math.Abs(day.SecondMetres) > LimitMetres);
}

/// <summary>A day of a casing's chart.</summary>
/// <param name="WorkingDay">Working day.</param>
/// <param name="FirstMetres">Weighted mean forward (or east), metres.</param>
/// <param name="SecondMetres">Weighted mean to starboard (or north), metres.</param>
/// <param name="Piles">Piles of the day.</param>
public sealed record CasingChartDay(DateOnly WorkingDay, double FirstMetres, double SecondMetres, int Piles);

/// <summary>Deviations in plan on the site grid.</summary>
/// <param name="SquareMetres">Side of the squares whose piles share one arrow; 0 where each pile has its own.</param>
/// <param name="Arrows">The arrows.</param>
public sealed record VectorPlan(double SquareMetres, IReadOnlyList<VectorArrow> Arrows);

/// <summary>A deviation in plan, site grid, metres.</summary>
/// <param name="X">Where it begins.</param>
/// <param name="Y">Where it begins.</param>
/// <param name="AlongMetres">Deviation along the first axis.</param>
/// <param name="AcrossMetres">Deviation along the second axis.</param>
/// <param name="Piles">Piles it is the mean of.</param>
/// <param name="Number">The pile, where it is one.</param>
public readonly record struct VectorArrow(double X, double Y, double AlongMetres, double AcrossMetres, int Piles, string? Number);

/// <summary>Figures of one casing.</summary>
/// <param name="Barge">Barge.</param>
/// <param name="Casing">Casing; null where the records do not say.</param>
/// <param name="SetUps">Different set-ups the judged piles were built from.</param>
/// <param name="NotJudged">Built piles that are not judged.</param>
/// <param name="Figures">Figures; null when no pile is judged.</param>
public sealed record CasingDeviation(string Barge, int? Casing, int SetUps, int NotJudged, DeviationFigures? Figures)
{
    /// <summary>Radial deviations at the ends of a box and its whiskers: 5th percentile, quartiles, 95th; null when no pile is judged.</summary>
    public RadialBox? Box { get; init; }
}

/// <summary>A box and its whiskers, metres.</summary>
/// <param name="Percentile5">5 % are at most this.</param>
/// <param name="LowerQuartile">25 % are at most this.</param>
/// <param name="Median">50 % are at most this.</param>
/// <param name="UpperQuartile">75 % are at most this.</param>
/// <param name="Percentile95">95 % are at most this.</param>
public sealed record RadialBox(double Percentile5, double LowerQuartile, double Median, double UpperQuartile, double Percentile95);

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
/// <param name="Standing">How it stands to limit and alert; null when it is not judged.</param>
public readonly record struct DeviationPoint(string Number, double EastMetres, double NorthMetres, double RadialMetres, LimitStanding? Standing)
{
    /// <summary>True when it is held against the limit.</summary>
    public bool IsJudged => Standing is not null;

    /// <summary>True when it is judged and beyond the limit.</summary>
    public bool IsBeyond => Standing == LimitStanding.NotMet;
}

/// <summary>What can be asked for.</summary>
/// <param name="Zones">Zones with built piles.</param>
/// <param name="Barges">Barges that built.</param>
/// <param name="Casings">Casings that built.</param>
/// <param name="FirstDay">First working day with a built pile.</param>
/// <param name="LastDay">Last working day with a built pile.</param>
public sealed record ReviewChoices(
    IReadOnlyList<string> Zones, IReadOnlyList<string> Barges, IReadOnlyList<int> Casings, DateOnly? FirstDay, DateOnly? LastDay)
{
    /// <summary>Shifts in which piles were built.</summary>
    public IReadOnlyList<string> Shifts { get; init; } = [];
}
