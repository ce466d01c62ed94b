using NodaTime;
using Npgsql;
using SiteProgress.Core.Bias;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Sites;

namespace SiteProgress.Jobs.Deviations;

/// <summary>One built pile as the review of deviations reads it. Metres; levels are as-built minus design, up positive.</summary>
internal sealed record BuiltPile(
    string Number,
    string Zone,
    string Barge,
    int? Casing,
    string? SetUp,
    DateOnly? WorkingDay,
    string? Shift,
    DateTime? EndedAt,
    int Attempts,
    bool Comparable,
    PositionDeviation? Deviation,
    double DesignX,
    double DesignY,
    double? TopDifference,
    double? TipDifference,
    double? Heading,
    North? HeadingNorth,
    SiteCoordinate? Middle,
    double DesignDiameter,
    double? MeanDiameter,
    double Latitude,
    double Longitude,
    double? Inclination)
{
    public static string Columns =>
        """
        p.number, p.zone, p.barge, p.casing, p.set_up, p.working_day, p.shift, p.ended_at, p.attempts, p.comparable,
        p.deviation_east, p.deviation_north, p.deviation_along, p.deviation_across, p.design_x, p.design_y, p.as_built_top - p.design_top, p.as_built_tip - p.design_tip,
        i.heading, i.heading_north, (coalesce(i.touch_down_x, i.deepest_x) + coalesce(i.deepest_x, i.touch_down_x)) / 2,
        (coalesce(i.touch_down_y, i.deepest_y) + coalesce(i.deepest_y, i.touch_down_y)) / 2, p.design_diameter, p.mean_diameter, p.latitude, p.longitude, i.inclination
        """;

    public bool IsJudged => Comparable && Deviation is not null;

    /// <summary>Limit of its position; shared by all piles held to the same numbers.</summary>
    public PositionLimit Limit { get; init; } = new(0);

    public JudgedDeviation Judged => new(Deviation!.Value, Limit);

    public LimitStanding? Standing => IsJudged ? Limit.Hold(Deviation!.Value).Answer.Standing : null;

    public bool IsBeyond => Standing == LimitStanding.NotMet;

    public DeviationPoint Point => new(Number, Deviation!.Value.EastMetres, Deviation.Value.NorthMetres, Deviation.Value.RadialMetres, Standing);

    public static BuiltPile Read(NpgsqlDataReader row) => new(
        row.GetString(0),
        row.GetString(1),
        row.TextOrNull(2) ?? "",
        row.WholeOrNull(3),
        row.TextOrNull(4),
        row.DayOrNull(5),
        row.TextOrNull(6),
        row.MomentOrNull(7),
        row.GetInt32(8),
        row.GetBoolean(9),
        row.NumberOrNull(10) is { } east && row.NumberOrNull(11) is { } north && row.NumberOrNull(12) is { } along && row.NumberOrNull(13) is { } across
            ? new PositionDeviation(east, north, along, across)
            : null,
        row.GetDouble(14),
        row.GetDouble(15),
        row.NumberOrNull(16),
        row.NumberOrNull(17),
        row.NumberOrNull(18),
        row.IsDBNull(19) ? null : (North)row.GetInt16(19),
        row.NumberOrNull(20) is { } x && row.NumberOrNull(21) is { } y ? new SiteCoordinate(x, y) : null,
        row.GetDouble(22),
        row.NumberOrNull(23),
        row.GetDouble(24),
        row.GetDouble(25),
        row.NumberOrNull(26));

    /// <summary>The pile as the search for bias takes it; the middle of its two positions, as the farther of them leans outward.</summary>
    public BiasPile ForBias(FrameTurn frame)
    {
        SiteCoordinate design = new(DesignX, DesignY);
        PositionDeviation middle = Middle is { } at ? PositionDeviation.Between(design, at, frame.Rotation) : Deviation!.Value;
        (double east, double north) = frame.ToGrid(design);
        return new BiasPile(
            Number, Barge, Casing, SetUp, Zone, EndedAt is { } ended ? Instant.FromDateTimeUtc(ended) : null,
            WorkingDay is { } day ? new LocalDate(day.Year, day.Month, day.Day) : null, frame.ToGridHeading(Heading, HeadingNorth), east, north,
            middle.EastMetres, middle.NorthMetres, Deviation!.Value.EastMetres, Deviation.Value.NorthMetres, Limit);
    }
}

/// <summary>Turns from the site grid and from other norths to the CRS grid.</summary>
/// <param name="Rotation">Axes of the site grid on the CRS grid.</param>
/// <param name="ConvergenceDegrees">Grid convergence in the middle of the site.</param>
internal sealed record FrameTurn(GridRotation Rotation, double ConvergenceDegrees)
{
    public (double East, double North) ToGrid(SiteCoordinate at) => (
        (at.XMetres * Rotation.FirstAxisEast) + (at.YMetres * Rotation.SecondAxisEast),
        (at.XMetres * Rotation.FirstAxisNorth) + (at.YMetres * Rotation.SecondAxisNorth));

    public double? ToGridHeading(double? heading, North? north) => north switch
    {
        North.CrsGrid => heading,
        North.SiteGrid => heading + (Math.Atan2(Rotation.SecondAxisEast, Rotation.SecondAxisNorth) * 180 / Math.PI),
        North.TrueNorth => heading - ConvergenceDegrees,
        _ => null,
    };
}
