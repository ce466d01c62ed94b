using System.Globalization;
using NodaTime;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Ground;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.SetUps;

/// <summary>
/// The seabed below a barge: the highest sounding below its hull of the latest survey that has one there, with the heave still to come
/// since that survey; where no survey has one, the level stated for the zones it builds in; else not known.
/// </summary>
public sealed class SeabedBelowBarge
{
    private const double Square = 5; // Side of the squares by which soundings are found, metres; about a tenth of a hull.
    private const double WithoutHull = 15; // How far about the reference point is looked where the hull is not known, metres.

    private readonly (SeabedSurvey Survey, Dictionary<(int, int), List<Sounding>> Squares)[] _surveys;
    private readonly IReadOnlyDictionary<string, double> _stated;
    private readonly Func<string, LocalDate, double?> _heave;
    private readonly Hull? _hull;

    /// <summary>Makes it.</summary>
    /// <param name="barge">The barge; its reference point is taken as the middle of its hull.</param>
    /// <param name="surveys">Seabed surveys of the site.</param>
    /// <param name="stated">Level stated for a zone, heave and all, metres on the site's datum, by its code.</param>
    /// <param name="heave">How much the seabed of a zone comes up after a survey of a day, metres; null where it cannot be told.</param>
    public SeabedBelowBarge(Barge barge, IReadOnlyList<SeabedSurvey> surveys, IReadOnlyDictionary<string, double> stated, Func<string, LocalDate, double?> heave)
    {
        ArgumentNullException.ThrowIfNull(barge);
        ArgumentNullException.ThrowIfNull(surveys);
        (_hull, _stated, _heave) = (barge.Hull, stated, heave);
        _surveys = [.. surveys.OrderByDescending(one => one.SurveyedOn).Select(survey => (survey, survey.Soundings.GroupBy(one => SquareOf(one.At.XMetres, one.At.YMetres)).ToDictionary(one => one.Key, one => one.ToList())))];
    }

    /// <summary>The seabed below the barge; null where it is not known.</summary>
    /// <param name="headingDegrees">Heading, degrees clockwise from the second axis of the site grid.</param>
    /// <param name="reference">Reference point, site grid.</param>
    /// <param name="zones">Codes of the zones it builds in there.</param>
    public SeabedBelow? At(double headingDegrees, SiteCoordinate reference, IReadOnlyCollection<string> zones)
    {
        ArgumentNullException.ThrowIfNull(zones);
        foreach ((SeabedSurvey survey, Dictionary<(int, int), List<Sounding>> squares) in _surveys)
        {
            if (Highest(squares, headingDegrees, reference) is not { } highest) continue;
            // A zone whose heave cannot be told makes the whole unknown: it may be the one that came up.
            double?[] heaves = [.. zones.Select(zone => _heave(zone, survey.SurveyedOn))];
            if (heaves.Contains(null)) continue;
            double heave = heaves.Select(one => one!.Value).DefaultIfEmpty(0).Max();
            return new SeabedBelow(highest + heave, string.Create(CultureInfo.InvariantCulture, $"survey {survey.Name} of {survey.SurveyedOn:uuuu-MM-dd}, highest sounding below the hull {highest:0.00} m and {heave:0.00} m of heave since"));
        }

        double?[] levels = [.. zones.Select(zone => _stated.TryGetValue(zone, out double level) ? level : (double?)null)];
        return levels.Length == 0 || levels.Contains(null) ? null : new SeabedBelow(levels.Max()!.Value, $"stated for zone {string.Join(", ", zones)}");
    }

    private double? Highest(Dictionary<(int, int), List<Sounding>> squares, double headingDegrees, SiteCoordinate reference)
    {
        (double half, double beam) = _hull is { } hull ? (hull.LengthMetres / 2, hull.BeamMetres / 2) : (WithoutHull, WithoutHull);
        (double sine, double cosine) = Math.SinCos(headingDegrees * Math.PI / 180);
        double reach = Math.Sqrt((half * half) + (beam * beam));
        (int left, int low) = SquareOf(reference.XMetres - reach, reference.YMetres - reach);
        (int right, int high) = SquareOf(reference.XMetres + reach, reference.YMetres + reach);
        double? highest = null;
        for (int column = left; column <= right; column++)
        {
            for (int row = low; row <= high; row++)
            {
                foreach (Sounding sounding in squares.GetValueOrDefault((column, row)) ?? [])
                {
                    (double x, double y) = (sounding.At.XMetres - reference.XMetres, sounding.At.YMetres - reference.YMetres);
                    if (Math.Abs((x * sine) + (y * cosine)) > half || Math.Abs((x * cosine) - (y * sine)) > beam) continue;
                    highest = Math.Max(highest ?? double.NegativeInfinity, sounding.LevelMetres);
                }
            }
        }

        return highest;
    }

    private static (int, int) SquareOf(double x, double y) => ((int)Math.Floor(x / Square), (int)Math.Floor(y / Square));
}
