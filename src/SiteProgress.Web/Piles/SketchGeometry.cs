using System.Globalization;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Deviations;
using SiteProgress.Jobs.Piles;

namespace SiteProgress.Web.Piles;

/// <summary>
/// Where things lie on the sketch of a pile's position. East is to the right, CRS grid north up; lengths are millimetres from
/// the design position.
/// </summary>
internal sealed class SketchGeometry
{
    private const double Margin = 1.3;

    /// <summary>Lays out the sketch of a pile.</summary>
    public SketchGeometry(PileRecord record)
    {
        PositionLimit limit = ContractLimits.Position(record.Zone, record.Design.DiameterMetres);
        Limit = limit.RadialMetres * 1000;
        Alert = limit.AlertRadialMetres * 1000;
        SetsRadial = limit.SetsRadial;
        (Along, Across) = (limit.AlongMetres * 1000, limit.AcrossMetres * 1000);
        BearingOfFirstAxis = record.Frames.BearingOfFirstAxisDegrees;
        JudgedPlace? judged = record.AsBuilt?.Position;
        Uncertainty = judged?.UncertaintyMetres * 1000 ?? 0;
        Marks = [.. record.Attempts.Where(attempt => attempt.Stands).SelectMany(attempt => Of(attempt, judged))];
        Reach = Margin * Marks
            .Select(mark => double.Hypot(mark.EastMillimetres, mark.NorthMillimetres) + (mark.Judged ? Uncertainty : 0))
            .Append(Limit).Max();
    }

    /// <summary>A recorded position on the sketch.</summary>
    /// <param name="Moment">Moment of the position.</param>
    /// <param name="EastMillimetres">dE.</param>
    /// <param name="NorthMillimetres">dN.</param>
    /// <param name="Judged">True for the one the pile is judged by.</param>
    public sealed record Mark(PositionMoment Moment, double EastMillimetres, double NorthMillimetres, bool Judged);

    /// <summary>Radius of the limit.</summary>
    public double Limit { get; }

    /// <summary>True where the contract sets a radial limit; else it is the corner of the limits along the axes.</summary>
    public bool SetsRadial { get; }

    /// <summary>Limit along the first axis of the site grid.</summary>
    public double? Along { get; }

    /// <summary>Limit along its second axis.</summary>
    public double? Across { get; }

    /// <summary>Degrees clockwise from CRS grid north.</summary>
    public double BearingOfFirstAxis { get; }

    /// <summary>Radius of the site's own alert.</summary>
    public double? Alert { get; }

    /// <summary>Uncertainty (95 %) of the judged position.</summary>
    public double Uncertainty { get; }

    /// <summary>Recorded positions of what stands.</summary>
    public IReadOnlyList<Mark> Marks { get; }

    /// <summary>Half the width of the sketch.</summary>
    public double Reach { get; }

    /// <summary>A round length for the scale bar, about a quarter of the sketch.</summary>
    public double ScaleBar
    {
        get
        {
            double room = Reach * 0.6;
            double power = Math.Pow(10, Math.Floor(Math.Log10(room)));
            return power * (room / power >= 5 ? 5 : room / power >= 2 ? 2 : 1);
        }
    }

    /// <summary>A number of a drawing's attribute.</summary>
    public static string N(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);

    private static IEnumerable<Mark> Of(PileAttempt attempt, JudgedPlace? judged)
    {
        if (attempt.TouchDown is { } touchDown) yield return Of(attempt, touchDown, PositionMoment.TouchDown, judged);
        if (attempt.EndOfPenetration is { } deepest) yield return Of(attempt, deepest, PositionMoment.EndOfPenetration, judged);
    }

    private static Mark Of(PileAttempt attempt, AttemptPosition position, PositionMoment moment, JudgedPlace? judged) => new(
        moment,
        position.Deviation.EastMetres * 1000,
        position.Deviation.NorthMetres * 1000,
        judged is not null && judged.Sequence == attempt.Sequence && judged.Moment == moment);
}
