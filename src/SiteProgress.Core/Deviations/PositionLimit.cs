using SiteProgress.Core.Coordinates;

namespace SiteProgress.Core.Deviations;

/// <summary>Which limit of a position decides.</summary>
public enum PositionMeasure
{
    /// <summary>Radial distance from the design position.</summary>
    Radial = 1,

    /// <summary>Along the first axis of the site grid, either way.</summary>
    Along = 2,

    /// <summary>Along the second axis of the site grid, either way.</summary>
    Across = 3,
}

/// <summary>A position held against all its limits: the numbers of the one that decides.</summary>
/// <param name="Measure">Which limit decides: one not met before one beyond its alert, then the one of which the position takes up most.</param>
/// <param name="Answer">Its numbers, metres.</param>
public readonly record struct PositionAnswer(PositionMeasure Measure, LimitAnswer Answer);

/// <summary>
/// How far the position of a pile may be off: the one answer to that for checks, figures, pictures and pages. One is shared by all
/// piles that are held to the same numbers.
/// </summary>
/// <param name="RadialMetres">Largest radial deviation, metres. Where the contract sets limits along both axes and no radial one: the corner of
/// the rectangle they make, which no position within them exceeds.</param>
/// <param name="AlongMetres">Largest deviation along the first axis of the site grid, metres; null where none is set.</param>
/// <param name="AcrossMetres">Largest deviation along the second axis of the site grid, metres; null where none is set.</param>
public sealed record PositionLimit(double RadialMetres, double? AlongMetres = null, double? AcrossMetres = null)
{
    /// <summary>False where the radial limit only follows from those along the axes.</summary>
    public bool SetsRadial { get; init; } = true;

    /// <summary>The site's radial alert, metres.</summary>
    public double? AlertRadialMetres { get; init; }

    /// <summary>The site's alert along the first axis, metres.</summary>
    public double? AlertAlongMetres { get; init; }

    /// <summary>The site's alert along the second axis, metres.</summary>
    public double? AlertAcrossMetres { get; init; }

    /// <summary>Axes of the site grid on the CRS grid, for deviations that are known as dE and dN only; null where the two are the same.</summary>
    public GridRotation? Axes { get; init; }

    /// <summary>True when limits along the axes are set.</summary>
    public bool SetsAxes => AlongMetres is not null || AcrossMetres is not null;

    /// <summary>True when the site sets an alert for positions.</summary>
    public bool SetsAlert => AlertRadialMetres is not null || AlertAlongMetres is not null || AlertAcrossMetres is not null;

    /// <summary>Holds a deviation against every limit that is set.</summary>
    /// <param name="deviation">As-built minus planned.</param>
    public PositionAnswer Hold(in PositionDeviation deviation)
    {
        PositionAnswer radial = new(PositionMeasure.Radial, new(deviation.RadialMetres, RadialMetres, AlertRadialMetres));
        if (!SetsAxes && AlertAlongMetres is null && AlertAcrossMetres is null) return radial;
        PositionAnswer worst = radial;
        if (AlongMetres is not null || AlertAlongMetres is not null) worst = Worse(worst, Axis(PositionMeasure.Along, deviation.AlongMetres, AlongMetres, AlertAlongMetres));
        if (AcrossMetres is not null || AlertAcrossMetres is not null) worst = Worse(worst, Axis(PositionMeasure.Across, deviation.AcrossMetres, AcrossMetres, AlertAcrossMetres));
        return worst;
    }

    /// <summary>Holds a deviation against one limit.</summary>
    /// <param name="measure">Which; one that is not set is held against the radial limit, which it cannot exceed alone.</param>
    /// <param name="deviation">As-built minus planned.</param>
    public LimitAnswer Hold(PositionMeasure measure, in PositionDeviation deviation) => measure switch
    {
        PositionMeasure.Along => Axis(measure, deviation.AlongMetres, AlongMetres, AlertAlongMetres).Answer,
        PositionMeasure.Across => Axis(measure, deviation.AcrossMetres, AcrossMetres, AlertAcrossMetres).Answer,
        _ => new LimitAnswer(deviation.RadialMetres, RadialMetres, AlertRadialMetres),
    };

    /// <summary>Holds a deviation that is known on the CRS grid only.</summary>
    /// <param name="eastMetres">dE, metres.</param>
    /// <param name="northMetres">dN, metres.</param>
    public PositionAnswer Hold(double eastMetres, double northMetres)
        => Hold(Axes is { } axes
            ? new PositionDeviation(
                eastMetres, northMetres,
                (eastMetres * axes.FirstAxisEast) + (northMetres * axes.FirstAxisNorth),
                (eastMetres * axes.SecondAxisEast) + (northMetres * axes.SecondAxisNorth))
            : new PositionDeviation(eastMetres, northMetres, eastMetres, northMetres));

    // An alert along an axis without a limit there is held against the radial limit, which the axis cannot exceed either.
    private PositionAnswer Axis(PositionMeasure measure, double metres, double? limit, double? alert)
        => new(measure, new(Math.Abs(metres), limit ?? RadialMetres, alert));

    private static PositionAnswer Worse(PositionAnswer one, PositionAnswer other)
    {
        (LimitStanding first, LimitStanding second) = (one.Answer.Standing, other.Answer.Standing);
        if (first != second) return first > second ? one : other;
        return other.Answer.ShareOfLimitRatio > one.Answer.ShareOfLimitRatio ? other : one;
    }
}
