namespace SiteProgress.Core.SetUps;

/// <summary>
/// What a planned piece of marine work asks of the weather by the older offshore rules: its reference period, the factor by which the
/// limit of the sea is lowered because forecasts err, and the limit that a forecast must then keep. It informs; the rules in force, the
/// warranty surveyor and the master decide.
/// </summary>
/// <remarks>
/// Source: factors of the DNV Rules for Marine Operations, Part 1, Chapter 2, as tabled in the article "Weather window" of Wikipedia, for
/// significant wave heights from 1 m up. Only the cells that were at hand are here; what they leave out is not known and not guessed.
/// Rules since then have other tables (in newer ones work is restricted by weather up to 96 h of reference period; from memory).
/// </remarks>
/// <param name="PlannedHours">Planned time of the work, hours.</param>
/// <param name="ReferenceHours">Planned time with what is kept for the unforeseen, hours.</param>
/// <param name="DesignMetres">Significant wave height up to which the work was checked, metres.</param>
/// <param name="Alpha">The factor; null where no table at hand says it.</param>
public sealed record WeatherWindow(double PlannedHours, double ReferenceHours, double DesignMetres, double? Alpha)
{
    /// <summary>Reference period below which work may be planned on a forecast alone, hours.</summary>
    public static double RestrictedBelowHours => 72;

    /// <summary>Largest single wave expected, as a multiple of the significant wave height.</summary>
    public static double LargestWaveRatio => 1.86;

    /// <summary>Significant wave height a forecast must not pass over the whole reference period, metres; null where the factor is not known.</summary>
    public double? OperationalMetres => Alpha * DesignMetres;

    /// <summary>True where the work may be planned on a forecast alone; longer work needs the statistics of the season.</summary>
    public bool OnForecastAlone => ReferenceHours < RestrictedBelowHours;

    /// <summary>What work asks of the weather.</summary>
    /// <param name="plannedHours">Planned time, hours.</param>
    /// <param name="designMetres">Significant wave height up to which the work was checked, metres.</param>
    /// <param name="unforeseenHours">Time kept for the unforeseen, hours; null where nobody said: as much again as planned.</param>
    /// <exception cref="ArgumentOutOfRangeException">A time or height that is not above zero.</exception>
    public static WeatherWindow Of(double plannedHours, double designMetres, double? unforeseenHours = null)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(plannedHours);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(designMetres);
        ArgumentOutOfRangeException.ThrowIfNegative(unforeseenHours ?? 0);
        double reference = plannedHours + (unforeseenHours ?? plannedHours);
        return new WeatherWindow(plannedHours, reference, designMetres, Factor(reference, designMetres));
    }

    /// <summary>The factor of a reference period and a wave height.</summary>
    /// <param name="referenceHours">Reference period, hours.</param>
    /// <param name="designMetres">Significant wave height, metres.</param>
    /// <returns>The factor; null below 1 m and where the cells at hand say none. On the edge of two columns the smaller factor holds.</returns>
    public static double? Factor(double referenceHours, double designMetres) => (referenceHours, designMetres) switch
    {
        (_, < 1) => null,
        ( < 12, <= 2) => 0.68,
        ( < 12, <= 4) => 0.76,
        ( < 12, _) => 0.80,
        ( < 24, <= 2) => 0.63,
        ( < 24, <= 4) => 0.71,
        _ => null,
    };

    /// <summary>Days by the calendar that work takes of which only a share of the time can be worked.</summary>
    /// <param name="netTime">Time of the work itself, in any unit; the answer has the same.</param>
    /// <param name="workableRatio">Share of the time that can be worked, above 0 up to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A share that is none.</exception>
    public static double CalendarTime(double netTime, double workableRatio)
        => workableRatio is > 0 and <= 1 ? netTime / workableRatio : throw new ArgumentOutOfRangeException(nameof(workableRatio), workableRatio, "A share above 0 and at most 1.");
}
