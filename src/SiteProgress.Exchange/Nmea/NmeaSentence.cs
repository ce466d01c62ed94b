using System.Globalization;
using SiteProgress.Core.Piles;

namespace SiteProgress.Exchange.Nmea;

/// <summary>
/// Sentences of NMEA 0183 as receivers write them: fields between "$" and "*", then the exclusive or of all characters between
/// the two as two hexadecimal digits. A sentence without a right checksum is refused: it was spoiled on its way.
/// </summary>
internal static class NmeaSentence
{
    /// <summary>The fields of a sentence.</summary>
    /// <param name="text">The sentence, with or without its line end.</param>
    /// <param name="type">Its three letters, whoever talks: "GGA".</param>
    /// <param name="fields">The fields after the name.</param>
    /// <returns>Null where it is whole and right, otherwise what was expected.</returns>
    public static string? Read(string text, string type, out string[] fields)
    {
        fields = [];
        var sentence = text.Trim();
        var star = sentence.LastIndexOf('*');
        if (!sentence.StartsWith('$') || star != sentence.Length - 3
            || !int.TryParse(sentence.AsSpan(star + 1), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var stated))
            return $"a whole {type} sentence with its checksum, from $ to * and two digits";
        var body = sentence[1..star];
        var worked = body.Aggregate(0, (sum, character) => sum ^ character);
        if (worked != stated)
            return string.Create(CultureInfo.InvariantCulture, $"a sentence with a right checksum; its characters give {worked:X2}");
        var parts = body.Split(',');
        if (parts[0].Length != 5 || !parts[0].EndsWith(type, StringComparison.Ordinal))
            return $"a {type} sentence; this one is {ImportProblem.Shorten(parts[0])}";
        fields = parts[1..];
        return null;
    }

    /// <summary>A number of a field; null where the field is empty or no number.</summary>
    internal static double? Number(string[] fields, int at)
        => at < fields.Length && double.TryParse(fields[at], NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value) ? value : null;
}

/// <summary>
/// What a GGA sentence says beside the position of the antenna. The position itself is not taken: it is that of the antenna, and
/// a pile is judged by the axis of its casing.
/// </summary>
/// <param name="Fix">Kind of fix; null where there is none, or it is estimated, typed in or simulated.</param>
/// <param name="CorrectionAgeSeconds">Age of the correction, seconds; null where none is stated.</param>
/// <param name="AntennaHeightMetres">Antenna above the ellipsoid, metres: height above the geoid plus the geoid's own; null where either is absent.</param>
internal readonly record struct GgaSentence(FixType? Fix, double? CorrectionAgeSeconds, double? AntennaHeightMetres)
{
    /// <summary>Reads a sentence.</summary>
    /// <param name="text">The sentence.</param>
    /// <param name="sentence">What it says.</param>
    /// <returns>Null where it could be read, otherwise what was expected.</returns>
    public static string? Read(string text, out GgaSentence sentence)
    {
        sentence = default;
        if (NmeaSentence.Read(text, "GGA", out var fields) is { } expected)
            return expected;
        if (fields.Length < 13)
            return $"a GGA sentence of 14 fields; this one has {fields.Length.ToString(CultureInfo.InvariantCulture)}";
        var height = NmeaSentence.Number(fields, 8) + NmeaSentence.Number(fields, 10);
        sentence = new GgaSentence(FixOf(fields[5]), NmeaSentence.Number(fields, 12), height is { } metres ? Math.Round(metres, 4) : null);
        return null;
    }

    /// <summary>Indicator of quality: 1 single, 2 differential, 3 precise service, 4 fixed, 5 float; 0 and 6 to 8 are no fix of a survey.</summary>
    private static FixType? FixOf(string quality) => quality switch
    {
        "1" or "3" => FixType.Autonomous,
        "2" => FixType.Differential,
        "4" => FixType.RtkFixed,
        "5" => FixType.RtkFloat,
        _ => null,
    };
}

/// <summary>Reads a HDT sentence: the heading from true north.</summary>
internal static class HdtSentence
{
    /// <summary>Reads a sentence.</summary>
    /// <param name="text">The sentence.</param>
    /// <param name="degrees">The heading, degrees clockwise from true north.</param>
    /// <returns>Null where it could be read, otherwise what was expected.</returns>
    public static string? Read(string text, out double degrees)
    {
        degrees = 0;
        if (NmeaSentence.Read(text, "HDT", out var fields) is { } expected)
            return expected;
        if (fields.Length < 2 || fields[1] != "T" || NmeaSentence.Number(fields, 0) is not (>= 0 and <= 360) || NmeaSentence.Number(fields, 0) is not { } read)
            return "a HDT sentence with a heading between 0 and 360 degrees and T for true north";
        degrees = read;
        return null;
    }
}
