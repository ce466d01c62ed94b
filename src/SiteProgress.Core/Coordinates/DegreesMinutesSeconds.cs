using System.Globalization;
using System.Text.RegularExpressions;

namespace SiteProgress.Core.Coordinates;

/// <summary>Angles as surveyors write them, degrees, minutes and seconds, to and from decimal degrees.</summary>
public static partial class DegreesMinutesSeconds
{
    /// <summary>Writes a latitude, for example 50°30'00.0000"N.</summary>
    /// <param name="degrees">Decimal degrees, north positive.</param>
    /// <param name="secondDecimals">Decimals of the seconds, 0 to 9; four decimals are 3 mm on the ground.</param>
    public static string FormatLatitude(double degrees, int secondDecimals = 4) => Format(degrees, secondDecimals, 'N', 'S');

    /// <summary>Writes a longitude, for example 0°30'00.0000"E.</summary>
    /// <param name="degrees">Decimal degrees, east positive.</param>
    /// <param name="secondDecimals">Decimals of the seconds, 0 to 9; four decimals are 3 mm on the ground.</param>
    public static string FormatLongitude(double degrees, int secondDecimals = 4) => Format(degrees, secondDecimals, 'E', 'W');

    /// <summary>Reads a latitude in decimal degrees or in degrees, minutes and seconds; the hemisphere is a letter N or S or a sign.</summary>
    /// <param name="text">For example 50°30'00"N, 50 30 00 N, 50-30-00N, -50.5, N 50° 30.0'.</param>
    /// <returns>Decimal degrees, or what is wrong with the text.</returns>
    public static AngleResult ParseLatitude(string text) => Parse(text, "latitude", 90, 'N', 'S');

    /// <summary>Reads a longitude in decimal degrees or in degrees, minutes and seconds; the hemisphere is a letter E or W or a sign.</summary>
    /// <param name="text">For example 0°30'00"E, 000 30 00 E, 1-43-04.5177W, -1.7179.</param>
    /// <returns>Decimal degrees, or what is wrong with the text.</returns>
    public static AngleResult ParseLongitude(string text) => Parse(text, "longitude", 180, 'E', 'W');

    private static string Format(double degrees, int secondDecimals, char positive, char negative)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(secondDecimals);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(secondDecimals, 9);
        if (!double.IsFinite(degrees)) return "not a number";

        // Rounding the whole angle first keeps 59.99996" from being written as 60.0000".
        var seconds = Math.Round((decimal)Math.Abs(degrees) * 3600m, secondDecimals, MidpointRounding.AwayFromZero);
        var whole = (int)(seconds / 3600m);
        var minutes = (int)(seconds / 60m) - whole * 60;
        var rest = seconds - whole * 3600m - minutes * 60m;
        var pattern = secondDecimals == 0 ? "00" : "00." + new string('0', secondDecimals);
        return string.Create(CultureInfo.InvariantCulture,
            $"{whole}°{minutes:00}'{rest.ToString(pattern, CultureInfo.InvariantCulture)}\"{(degrees < 0 ? negative : positive)}");
    }

    private static AngleResult Parse(string text, string what, double limit, char positive, char negative)
    {
        ArgumentNullException.ThrowIfNull(text);
        var match = Angle().Match(text.Trim());
        if (!match.Success) return Wrong(text, what, "expected decimal degrees or degrees, minutes and seconds");
        var letter = (match.Groups["before"].Value + match.Groups["after"].Value).ToUpperInvariant();
        var sign = match.Groups["sign"].Value;
        if (letter.Length > 1) return Wrong(text, what, "it has two hemisphere letters");
        if (letter.Length == 1 && letter[0] != positive && letter[0] != negative) return Wrong(text, what, $"its hemisphere must be {positive} or {negative}");
        if (letter.Length == 1 && sign is "-" or "\u2212") return Wrong(text, what, "it has both a minus sign and a hemisphere letter");
        if (!Part(match, "degrees", out var degrees) | !Part(match, "minutes", out var minutes) | !Part(match, "seconds", out var seconds))
            return Wrong(text, what, "expected decimal degrees or degrees, minutes and seconds");
        if (match.Groups["minutes"].Success && degrees != Math.Floor(degrees) || match.Groups["seconds"].Success && minutes != Math.Floor(minutes))
            return Wrong(text, what, "only its last part may have decimals");
        if (minutes >= 60 || seconds >= 60) return Wrong(text, what, "minutes and seconds must be below 60");
        var value = degrees + minutes / 60 + seconds / 3600;
        if (value > limit) return Wrong(text, what, string.Create(CultureInfo.InvariantCulture, $"it must lie between -{limit} and {limit} degrees"));
        return AngleResult.Read(sign is "-" or "\u2212" || letter.Length == 1 && letter[0] == negative ? -value : value);
    }

    private static bool Part(Match match, string group, out double value)
    {
        value = 0;
        return !match.Groups[group].Success || double.TryParse(match.Groups[group].Value, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out value);
    }

    private static AngleResult Wrong(string text, string what, string reason) => AngleResult.Refused($"\"{text}\" is not a {what}: {reason}.");

    [GeneratedRegex("""
        ^(?<before>[NSEWnsew])?\s*(?<sign>[-+\u2212])?\s*(?<degrees>\d{1,3}(\.\d+)?)
        (\s*[°ºd:\s-]\s*(?<minutes>\d{1,2}(\.\d+)?)(\s*['′m:\s-]\s*(?<seconds>\d{1,2}(\.\d+)?)\s*("|″|''|s)?)?\s*['′m]?)?
        \s*[°ºd]?\s*(?<after>[NSEWnsew])?$
        """, RegexOptions.ExplicitCapture | RegexOptions.IgnorePatternWhitespace | RegexOptions.CultureInvariant)]
    private static partial Regex Angle();
}

/// <summary>An angle read from text, or what is wrong with the text.</summary>
public sealed record AngleResult
{
    /// <summary>Decimal degrees; null when the text is refused.</summary>
    public double? Degrees { get; private init; }

    /// <summary>What is wrong with the text; null when it was read.</summary>
    public string? Refusal { get; private init; }

    internal static AngleResult Read(double degrees) => new() { Degrees = degrees };

    internal static AngleResult Refused(string reason) => new() { Refusal = reason };
}
