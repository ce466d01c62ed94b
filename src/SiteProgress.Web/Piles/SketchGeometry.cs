using System.Globalization;
using SiteProgress.Core.Checks;
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
        Limit = record.Zone.Limits.RadialMetres * 1000;
        Alert = record.Zone.AlertRadialMetres * 1000;
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
