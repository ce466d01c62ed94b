using System.Globalization;
using Microsoft.AspNetCore.Components;

namespace SiteProgress.Web.Shell;

/// <summary>
/// Numbers as people read them on a page: real minus sign, thin-space thousands, a dash with its reason where a number is
/// missing. Files use the invariant culture instead.
/// </summary>
public static class Show
{
    private static readonly NumberFormatInfo Format = new()
    {
        NegativeSign = "\u2212",
        NumberGroupSeparator = "\u2009",
        NumberGroupSizes = [3],
        NumberDecimalSeparator = ".",
    };

    /// <summary>A site-grid or projected coordinate given in metres, to the millimetre.</summary>
    public static string Coordinate(double metres) => Number(metres, 3);

    /// <summary>A deviation given in metres, in whole millimetres. Write mm beside it.</summary>
    public static string Millimetres(double metres) => Number(metres * 1000, 0);

    /// <summary>A level or length given in metres, to the centimetre.</summary>
    public static string Level(double metres) => Number(metres, 2);

    /// <summary>A volume of sand given in cubic metres, to one decimal.</summary>
    public static string CubicMetres(double cubicMetres) => Number(cubicMetres, 1);

    /// <summary>Latitude or longitude in degrees, to 8 decimals.</summary>
    public static string Degrees(double degrees) => Number(degrees, 8);

    /// <summary>A bearing or heading in degrees, to the hundredth.</summary>
    public static string Bearing(double degrees) => Number(degrees, 2);

    /// <summary>A ratio (0.98) in percent (98.0), to one decimal. Write % beside it.</summary>
    public static string Percent(double ratio) => Number(ratio * 100, 1);

    /// <summary>A count.</summary>
    public static string Count(long count) => count.ToString("N0", Format);

    /// <summary>Any number with so many decimals. Halves go away from zero; what rounds to zero has no sign.</summary>
    public static string Number(double value, int decimals)
    {
        if (!double.IsFinite(value)) return "\u2014";
        string text = Math.Round(value, decimals, MidpointRounding.AwayFromZero).ToString("N" + decimals.ToString(CultureInfo.InvariantCulture), Format);
        return text.StartsWith('\u2212') && text.All(letter => letter is '\u2212' or '0' or '.') ? text[1..] : text;
    }

    /// <summary>The number, or a dash that says why there is none.</summary>
    /// <param name="value">The number; null when it is missing.</param>
    /// <param name="format">One of the methods above.</param>
    /// <param name="whyMissing">Reason under the pointer and for screen readers.</param>
    public static RenderFragment Or(double? value, Func<double, string> format, string whyMissing) => Or<double>(value, format, whyMissing);

    /// <summary>The value, or a dash that says why there is none.</summary>
    /// <param name="value">The value; null when it is missing.</param>
    /// <param name="format">How it is written.</param>
    /// <param name="whyMissing">Reason under the pointer and for screen readers.</param>
    public static RenderFragment Or<T>(T? value, Func<T, string> format, string whyMissing)
        where T : struct => builder =>
    {
        if (value is { } number) builder.AddContent(0, format(number));
        else builder.AddContent(1, Missing(whyMissing));
    };

    /// <summary>The dash for a missing number.</summary>
    public static RenderFragment Missing(string why) => builder =>
    {
        builder.OpenElement(0, "abbr");
        builder.AddAttribute(1, "class", "missing");
        builder.AddAttribute(2, "title", why);
        builder.AddContent(3, "\u2014");
        builder.CloseElement();
    };
}
