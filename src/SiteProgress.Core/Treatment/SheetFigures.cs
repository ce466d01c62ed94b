using System.Globalization;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Treatment;

/// <summary>Numbers and words as they stand on a sheet. They are part of what is signed, so they are never changed, only added.</summary>
internal static class SheetFigures
{
    public static readonly string None = "not on the record";

    public static string Metres(double? metres) => Number(metres, "0.000", "m");

    public static string Millimetres(double? metres) => Number(metres * 1000, "0", "mm");

    public static string Level(double? metres) => Number(metres, "0.00", "m");

    public static string CubicMetres(double? volume) => Number(volume, "0.0", "m³");

    public static string Degrees(double? degrees) => Number(degrees, "0.00", "°");

    public static string Number(double? value, string format, string unit)
    {
        if (value is not { } number || !double.IsFinite(number)) return None;
        string text = number.ToString(format, CultureInfo.InvariantCulture).Replace('-', '\u2212');
        return unit is "°" or "" ? text + unit : text + " " + unit;
    }

    public static string Value(double? value, string unit) => unit switch
    {
        "m" => Number(value, "0.0000", "m"),
        "ratio" => Number(value, "0.0000", ""),
        "deg" => Number(value, "0.000", "°"),
        _ => Number(value, "0.00", unit),
    };

    public static string Of(Verdict verdict) => verdict switch
    {
        Verdict.Met => "met",
        Verdict.NotMet => "not met",
        _ => "not judged",
    };

    public static string Of(CheckName check) => check switch
    {
        CheckName.Top => "top level",
        CheckName.LeastDiameter => "least equivalent diameter",
        CheckName.SandAgreement => "agreement of the sand",
        CheckName.SandAccount => "sand account",
        _ => check.ToString().ToLowerInvariant(),
    };

    public static string Of(Outcome outcome) => outcome switch
    {
        Outcome.OffsetByInstruction => "offset by instruction",
        _ => outcome.ToString().ToLowerInvariant(),
    };

    public static string Of(FixType fix) => fix switch
    {
        FixType.RtkFixed => "RTK fixed",
        FixType.RtkFloat => "RTK float",
        FixType.Differential => "differential",
        _ => "autonomous",
    };

    public static string Of(Disposition disposition) => disposition switch
    {
        Disposition.UseAsIs => "use as is",
        Disposition.RepairInPlace => "repair in place",
        Disposition.InstallAgain => "install again",
        _ => "additional pile",
    };

    public static string Records(IEnumerable<long> sequences)
        => string.Join(", ", sequences.Select(sequence => sequence.ToString(CultureInfo.InvariantCulture)));

    public static string Whole(long number) => number.ToString(CultureInfo.InvariantCulture);
}
