using System.Globalization;

namespace SiteProgress.Exchange.TextTables;

/// <summary>What a column of numbers measures: its unit, and the range outside which a number is a mistake of unit or of typing.</summary>
/// <param name="Name">Unit in words for a person.</param>
/// <param name="Unit">Unit as headers write it.</param>
/// <param name="Least">Smallest number that can be meant.</param>
/// <param name="Most">Largest number that can be meant.</param>
internal sealed record Quantity(string Name, string Unit, double Least, double Most)
{
    /// <summary>Coordinate on a site grid. Some sites keep truncated national coordinates, so seven digits are allowed.</summary>
    public static readonly Quantity SiteCoordinate = new("metres on the site grid", "m", -9_999_999, 9_999_999);

    /// <summary>Easting or northing. Eastings with the zone in front have eight digits; nine and more are millimetres.</summary>
    public static readonly Quantity ProjectedCoordinate = new("metres of easting or northing", "m", -99_999_999, 99_999_999);

    /// <summary>Latitude.</summary>
    public static readonly Quantity Latitude = new("degrees of latitude", "deg", -90, 90);

    /// <summary>Longitude.</summary>
    public static readonly Quantity Longitude = new("degrees of longitude", "deg", -180, 180);

    /// <summary>Level above the site's datum.</summary>
    public static readonly Quantity Level = new("metres above the level datum", "m", -500, 500);

    /// <summary>Diameter of a pile.</summary>
    public static readonly Quantity Diameter = new("metres", "m", 0.05, 20);

    /// <summary>Length of a pile.</summary>
    public static readonly Quantity Length = new("metres", "m", 0, 300);

    /// <summary>Uncertainty or standard deviation of a position; zero is no statement.</summary>
    public static readonly Quantity Uncertainty = new("metres", "m", 0.0001, 1_000);

    /// <summary>Volume of sand.</summary>
    public static readonly Quantity Volume = new("cubic metres", "m3", 0, 10_000);

    /// <summary>Heading.</summary>
    public static readonly Quantity Heading = new("degrees clockwise from north", "deg", 0, 360);

    /// <summary>Inclination from the vertical.</summary>
    public static readonly Quantity Inclination = new("degrees from the vertical", "deg", 0, 90);

    /// <summary>Depth below water, deck or antenna.</summary>
    public static readonly Quantity Depth = new("metres, down positive", "m", -20, 300);

    /// <summary>Offset, length or zero measured on a barge.</summary>
    public static readonly Quantity Offset = new("metres", "m", -300, 300);

    /// <summary>Height above the ellipsoid.</summary>
    public static readonly Quantity EllipsoidHeight = new("metres above the ellipsoid", "m", -500, 9_000);

    /// <summary>Inner area of a casing.</summary>
    public static readonly Quantity Area = new("square metres", "m2", 0.001, 50);

    /// <summary>List, trim or alignment of a barge.</summary>
    public static readonly Quantity Heel = new("degrees", "deg", -30, 30);

    /// <summary>Age of a correction.</summary>
    public static readonly Quantity Age = new("seconds", "s", 0, 100_000);

    /// <summary>Epoch of coordinates.</summary>
    public static readonly Quantity Epoch = new("a year with decimals, such as 2026.21", "a", 1980, 2100);

    /// <summary>Rate of penetration.</summary>
    public static readonly Quantity Rate = new("metres per minute", "m/min", 0, 100);

    /// <summary>Hours of one entry of a diary; a working day has 25 when the clocks go back.</summary>
    public static readonly Quantity Hours = new("hours", "h", 0, 25);

    /// <summary>Depth below the ground.</summary>
    public static readonly Quantity DepthBelowGround = new("metres below the ground", "m", 0, 500);

    /// <summary>A share in percent.</summary>
    public static readonly Quantity Percent = new("percent", "%", 0, 200);

    /// <summary>Air pressure above atmosphere.</summary>
    public static readonly Quantity Pressure = new("kilopascals above atmosphere", "kPa", -100, 3_000);

    /// <summary>Load of a hammer, in the barge's own unit.</summary>
    public static readonly Quantity HammerLoad = new("load of the hammer", "", -10, 100_000);

    /// <summary>Lean about one axis, either way.</summary>
    public static readonly Quantity Lean = new("degrees either way", "deg", -45, 45);

    /// <summary>Open or closed.</summary>
    public static readonly Quantity OpenOrClosed = new("1 for open, 0 for closed", "", 0, 1);

    /// <summary>Factor that brings a number in the unit of the header to this quantity's unit; null for a unit that is not known here.</summary>
    /// <param name="unit">Unit as the header writes it.</param>
    public double? FactorFrom(string unit)
    {
        var written = unit.Trim().Trim('.').ToLowerInvariant()
            .Replace("\u00B3", "3", StringComparison.Ordinal).Replace("^", "", StringComparison.Ordinal).Replace("\u00B0", "deg", StringComparison.Ordinal);
        written = written switch
        {
            "degrees" or "degree" => "deg",
            "metres" or "meters" or "metre" or "meter" or "mtr" or "mtrs" => "m",
            "cbm" or "cum" or "cu.m" or "cu m" or "cubic metres" or "cubic meters" => "m3",
            "litre" or "litres" or "liter" or "liters" or "ltr" => "l",
            "millimeter" or "millimetre" => "mm",
            "sec" or "seconds" => "s",
            _ => written,
        };
        return (Unit, written) switch
        {
            _ when Unit == written => 1,
            ("kPa", "kpa") => 1,
            ("kPa", "bar") => 100,
            ("kPa", "mpa") => 1_000,
            ("", "kw" or "a") => 1,
            ("m", "cm") => 0.01,
            ("m", "mm") => 0.001,
            // The international foot is 0.3048 m exactly, the US survey foot 1200/3937 m (NIST SP 811, appendix B.6).
            ("m", "in") => 0.0254,
            ("m", "ft" or "feet" or "foot") => 0.3048,
            ("m", "usft" or "us-ft" or "ussurveyfoot") => 1200.0 / 3937.0,
            ("m3", "l" or "dm3") => 0.001,
            ("m/min", "m/s") => 60,
            ("m/min", "cm/s") => 0.6,
            _ => null,
        };
    }

    /// <summary>Units a person may choose, this quantity's own first.</summary>
    public IReadOnlyList<string> Units => Unit switch
    {
        "m" => ["m", "cm", "mm", "ft", "us-ft", "in"],
        "m3" => ["m3", "l"],
        "m/min" => ["m/min", "m/s", "cm/s"],
        _ => [Unit],
    };

    /// <summary>What was expected of a number out of range, with the likely mistake where there is one.</summary>
    /// <param name="value">The number, in this quantity's unit.</param>
    public string Expected(double value)
    {
        var range = string.Create(CultureInfo.InvariantCulture, $"{Name} between {Least} and {Most}");
        var asMillimetres = Unit == "m" && value / 1_000 >= Least && value / 1_000 <= Most && value != 0;
        return asMillimetres ? range + "; this looks like millimetres" : range;
    }
}
