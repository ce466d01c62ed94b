using SiteProgress.Core.Piles;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Calibrations;

/// <summary>A calibration in words, and the columns in which it is typed.</summary>
internal static class CalibrationWords
{
    /// <summary>What may be measured: title of the column, words, unit, and the value.</summary>
    public static readonly IReadOnlyList<(string Title, string Words, string Unit, Func<Calibration, double?> Value)> Parts =
    [
        ("Forward [m]", "casing forward", "m", one => one.ForwardMetres),
        ("Starboard [m]", "casing to starboard", "m", one => one.StarboardMetres),
        ("Inner area [m2]", "inner area of the casing", "m²", one => one.InnerAreaSquareMetres),
        ("Encoder zero [m]", "encoder zero", "m", one => one.EncoderZeroMetres),
        ("Gauge zero [m]", "zero of the sand gauge", "m", one => one.GaugeZeroMetres),
        ("Antenna forward [m]", "antenna forward", "m", one => one.AntennaForwardMetres),
        ("Antenna starboard [m]", "antenna to starboard", "m", one => one.AntennaStarboardMetres),
        ("Antenna above deck [m]", "antenna above deck", "m", one => one.AntennaAboveDeckMetres),
        ("Alignment of heading [deg]", "alignment of the heading", "deg", one => one.HeadingAlignmentDegrees),
        ("Deck above keel [m]", "deck above keel", "m", one => one.DeckAboveKeelMetres),
        ("Fore mark [m]", "fore draught mark forward", "m", one => one.ForeMarkMetres),
        ("Fore mark zero [m]", "zero of the fore mark", "m", one => one.ForeMarkZeroMetres),
        ("Aft mark [m]", "aft draught mark forward", "m", one => one.AftMarkMetres),
        ("Aft mark zero [m]", "zero of the aft mark", "m", one => one.AftMarkZeroMetres),
    ];

    /// <summary>Id of the control for a column: letters and digits alone.</summary>
    public static string IdOf(string form, string title) => form + "-of-" + string.Concat(title.Where(char.IsLetterOrDigit)).ToLowerInvariant();

    /// <summary>What was measured, each with its unit.</summary>
    public static IEnumerable<string> Measured(Calibration calibration)
        => Parts.Where(part => part.Value(calibration) is not null).Select(part => $"{part.Words} {Show.Number(part.Value(calibration)!.Value, 3)} {part.Unit}");
}
