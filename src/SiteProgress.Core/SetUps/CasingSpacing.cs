using SiteProgress.Core.Piles;

namespace SiteProgress.Core.SetUps;

/// <summary>Spacings the casings of a barge may have.</summary>
/// <param name="Metres">The spacings, metres; that of today may be among them.</param>
/// <param name="HoursPerChangeHours">Hours in which the casings are set to another, no piles built meanwhile.</param>
public sealed record SpacingChoice(IReadOnlyList<double> Metres, double HoursPerChangeHours);

/// <summary>A stretch of a plan with one casing spacing.</summary>
/// <param name="SpacingMetres">The spacing, metres.</param>
/// <param name="Zones">Zones built with it.</param>
/// <param name="Changes">True where the casings are set to it before; false where they stand so already.</param>
/// <param name="Anchors">Layings of the anchors.</param>
/// <param name="SetUps">Set-ups.</param>
public sealed record SpacingStretch(double SpacingMetres, IReadOnlyList<string> Zones, bool Changes, int Anchors, int SetUps);

/// <summary>Casings in one straight line with equal distances: their spacing, and the same barge with another.</summary>
public static class CasingSpacing
{
    private const double Same = 0.02; // Offsets are measured to a centimetre or two.

    /// <summary>The spacing; null where there are fewer than two casings, or they stand otherwise than in an evenly divided line.</summary>
    public static double? Of(Barge barge)
    {
        ArgumentNullException.ThrowIfNull(barge);
        if (barge.Casings.Count < 2) return null;
        Casing[] line = InLine(barge);
        (double X, double Y) step = Step(line);
        for (int place = 0; place < line.Length; place++)
        {
            if (Math.Abs(line[place].ForwardMetres - line[0].ForwardMetres - (place * step.X)) > Same || Math.Abs(line[place].StarboardMetres - line[0].StarboardMetres - (place * step.Y)) > Same) return null;
        }

        return Math.Sqrt((step.X * step.X) + (step.Y * step.Y));
    }

    /// <summary>True where two spacings are one.</summary>
    public static bool IsSame(double one, double other) => Math.Abs(one - other) <= Same;

    /// <summary>The barge with its casings at another spacing about the same middle.</summary>
    /// <exception cref="ArgumentException">The casings stand in no evenly divided line.</exception>
    public static Barge With(Barge barge, double spacingMetres)
    {
        double now = Of(barge) ?? throw new ArgumentException("The casings stand in no evenly divided line.", nameof(barge));
        double forward = barge.Casings.Average(one => one.ForwardMetres), starboard = barge.Casings.Average(one => one.StarboardMetres);
        return barge with
        {
            Casings = [.. barge.Casings.Select(one => one with
            {
                ForwardMetres = forward + ((one.ForwardMetres - forward) * spacingMetres / now),
                StarboardMetres = starboard + ((one.StarboardMetres - starboard) * spacingMetres / now),
            })],
        };
    }

    private static Casing[] InLine(Barge barge) => [.. barge.Casings.OrderBy(one => Math.Round(one.StarboardMetres, 1)).ThenBy(one => one.ForwardMetres)];

    private static (double X, double Y) Step(Casing[] line)
        => ((line[^1].ForwardMetres - line[0].ForwardMetres) / (line.Length - 1), (line[^1].StarboardMetres - line[0].StarboardMetres) / (line.Length - 1));
}
