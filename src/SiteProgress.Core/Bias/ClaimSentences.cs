using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace SiteProgress.Core.Bias;

/// <summary>Says claims in words a surveyor can act on. Lengths in whole millimetres, angles in hundredths of a degree.</summary>
public static class ClaimSentences
{
    /// <summary>The whole claim.</summary>
    public static string Of(BiasClaim claim)
    {
        ArgumentNullException.ThrowIfNull(claim);
        Cause cause = claim.Named.Cause;
        string likely = claim.Named.Excluded ? " No single cause explains all of it." : "";
        CauseFit[] possible = claim.Others.Where(one => !one.Excluded).ToArray();
        string others = possible.Length == 0 ? "" : $" Not excluded: {string.Join("; ", possible.Select(one => $"{Name(one.Cause)} ({Values(one.Values, one.Cause, null)})"))}.";
        return $"{Capital(Name(cause))}, {Period(claim.FromDay, claim.ToDay)}: recorded {Values(claim.Named.Values, cause, claim.Factor)}. "
            + $"{Sure(claim.Chance)} It touches {Piles(claim.Touched.Piles)}: {claim.Touched.WithinNow} within the limit as recorded, {claim.Touched.WithinThen} if the record is corrected; "
            + $"median radial {Millimetres(claim.Touched.MedianNowMetres)} mm, then {Millimetres(claim.Touched.MedianThenMetres)} mm.{likely}{others} {Of(claim.Support, cause)}";
    }

    /// <summary>What a cause is called.</summary>
    public static string Name(Cause cause)
    {
        ArgumentNullException.ThrowIfNull(cause);
        return cause.Kind switch
        {
            CauseKind.GridShift => "shift of the grid",
            CauseKind.GridTurn => "turn of the grid",
            CauseKind.BargeOffset => $"offset of {cause.Barge}",
            CauseKind.OffsetPerBarge => "an offset of each barge",
            CauseKind.CasingOffset => $"casing {cause.Casing} of {cause.Barge} against its neighbours",
            CauseKind.Heading => $"heading of {cause.Barge}",
            CauseKind.List => $"list of {cause.Barge} times antenna height",
            _ => throw new ArgumentOutOfRangeException(nameof(cause), cause.Kind, "unknown cause"),
        };
    }

    /// <summary>The numbers of a cause, with half their 95 % interval where the factor is given, else with standard errors.</summary>
    public static string Values(IReadOnlyList<CauseValue> values, Cause cause, double? factor)
    {
        ArgumentNullException.ThrowIfNull(values);
        ArgumentNullException.ThrowIfNull(cause);
        return string.Join(" and ", values.Select(value =>
        {
            bool angle = value.Name == "angle";
            Func<double, string> number = angle ? Angle : Millimetres;
            string unit = angle ? "°" : " mm";
            string who = value.Barge is { } barge && cause.Kind == CauseKind.OffsetPerBarge ? $"{barge} " : "";
            return factor is { } times
                ? $"{who}{number(Math.Abs(value.Value))} ± {number(times * value.StandardError)}{unit} {Side(value)}"
                : $"{who}{number(Math.Abs(value.Value))}{unit} {Side(value)} (standard error {number(value.StandardError)})";
        }));
    }

    /// <summary>What check measurements say.</summary>
    public static string Of(CheckSupport support, Cause cause)
    {
        ArgumentNullException.ThrowIfNull(support);
        ArgumentNullException.ThrowIfNull(cause);
        string measured = $"{support.Measurements} check measurements at {support.Visits} set-ups";
        return support.Standing switch
        {
            ClaimStanding.RecordWrong => $"Supported: {measured} show the same offset, so the record is wrong and the piles stand elsewhere than recorded.",
            ClaimStanding.PilesWrong => $"Supported: {measured} show no offset, so the record is right and the piles stand where it says.",
            ClaimStanding.Unsettled => $"Suspected: {measured} fit neither a wrong record nor wrong piles, or both; measure again.",
            _ when cause.Barge is null => "Suspected: the record may be wrong or the piles; measurements from the same control points would share an error of the grid, so check the control points.",
            _ => "Suspected: the record may be wrong or the piles may be wrong; a check measurement tells which.",
        };
    }

    /// <summary>What keeps the causes of a claim from being told apart.</summary>
    internal static IReadOnlyList<string> Remarks(ReviewData data, Explained explained, BiasSite site)
    {
        List<string> remarks = [];
        Cause cause = explained.Named.Cause;
        foreach (CauseFit other in explained.Others.Where(one => !one.Excluded && one.StandardErrorsTogether is not null))
        {
            remarks.Add(other.StandardErrorsTogether!.Any(error => error is null)
                ? $"{Capital(Name(cause))} and {Name(other.Cause)} cannot be told apart at all by these set-ups."
                : $"With {Name(other.Cause)} allowed beside it, {Name(cause)} is known to {string.Join(" and ", other.StandardErrorsTogether!.Select((error, index) => InUnit(error!.Value, explained.Named.Values[index])))} (standard errors) only.");
        }

        if (cause.Barge is { } barge && cause.Casing is null)
        {
            double[] headings = explained.SetUps.SelectMany(place => Enumerable.Range(data.SetUps[place].First, data.SetUps[place].Count))
                .Where(pile => data.Piles[pile].Barge == barge).Select(pile => data.Piles[pile].HeadingDegrees).OfType<double>().ToArray();
            if (headings.Length > 0 && SearchRemarks.Range(headings) <= 20) remarks.Add($"{barge} kept one heading in this time; set-ups on the opposite heading would tell an offset of the barge from a shift of the grid.");
            if (explained.SetUps.All(place => data.Barges[data.SetUps[place].Barge] == barge)) remarks.Add($"No other barge worked in this time, so a shift of the grid shows nowhere else.");
        }

        if (AngleOf(explained) is { } angle && Math.Abs(Math.Abs(angle.Value) - Math.Abs(site.ConvergenceDegrees)) <= explained.Factor * angle.StandardError && Math.Abs(site.ConvergenceDegrees) > angle.StandardError)
            remarks.Add($"The angle equals the grid convergence here ({Angle(site.ConvergenceDegrees)}°): a heading counted from true north may have been taken for one from grid north, or the other way round.");
        if (explained.Others.Concat([explained.Named]).FirstOrDefault(one => one.Cause.Kind == CauseKind.List && !one.Excluded) is { } list)
            remarks.Add($"The record holds no list: 1° of list moves an antenna 10 m above the deck by 175 mm; {Millimetres(Math.Abs(list.Values[0].Value))} mm would be {Angle(Math.Atan(Math.Abs(list.Values[0].Value) / 10) * 180 / Math.PI)}°.");
        return remarks;
    }

    /// <summary>Working days of a claim.</summary>
    public static string Period(LocalDate? from, LocalDate? to) => (from, to) switch
    {
        ({ } first, { } last) when first == last => $"on {Day(first)}",
        ({ } first, { } last) => $"{Day(first)} to {Day(last)}",
        _ => "days not on the record",
    };

    /// <summary>A length in whole millimetres.</summary>
    internal static string Millimetres(double metres) => (Math.Round(metres * 1000, MidpointRounding.AwayFromZero) + 0).ToString("0", CultureInfo.InvariantCulture);

    private static CauseValue? AngleOf(Explained explained)
        => explained.Others.Where(one => !one.Excluded).Concat([explained.Named]).SelectMany(one => one.Values).FirstOrDefault(value => value.Name == "angle");

    private static string InUnit(double error, CauseValue value) => value.Name == "angle" ? $"{Angle(error)}°" : $"{Millimetres(error)} mm";

    private static string Side(CauseValue value) => (value.Name, value.Value >= 0) switch
    {
        ("angle", true) => "clockwise",
        ("angle", false) => "anticlockwise",
        ("forward", true) => "forward",
        ("forward", false) => "aft",
        ("starboard", true) => "to starboard",
        ("starboard", false) => "to port",
        ("east", true) => "east",
        ("east", false) => "west",
        ("north", true) => "north",
        _ => "south",
    };

    private static string Sure(double chance) => chance < 1e-6
        ? "Chance alone makes the like on fewer than one site in a million."
        : $"Chance alone makes the like on about one site in {Math.Round(1 / chance).ToString("0", CultureInfo.InvariantCulture)}.";

    private static string Piles(int count) => count == 1 ? "1 pile" : $"{count} piles";

    private static string Angle(double degrees) => degrees.ToString("0.00", CultureInfo.InvariantCulture);

    private static string Day(LocalDate day) => LocalDatePattern.Iso.Format(day);

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];
}

/// <summary>Says what check measurements show.</summary>
internal static class CheckSentences
{
    public static string Of(CheckFinding finding, double leastSizeMetres)
    {
        string who = finding switch
        {
            { Casing: { } casing, Calibration: { } calibration } => string.Create(CultureInfo.InvariantCulture, $"{finding.Barge}, casing {casing} with the calibration of record {calibration}"),
            { Casing: { } casing } => string.Create(CultureInfo.InvariantCulture, $"{finding.Barge}, casing {casing} against its neighbours"),
            _ => finding.Barge,
        };
        string what = finding.InBargeAxes
            ? ClaimSentences.Values([new("forward", null, finding.ForwardMetres, finding.ForwardStandardError), new("starboard", null, finding.StarboardMetres, finding.StarboardStandardError)], new Cause(CauseKind.BargeOffset, finding.Barge, null), null)
            : ClaimSentences.Values([new("east", null, finding.ForwardMetres, finding.ForwardStandardError), new("north", null, finding.StarboardMetres, finding.StarboardStandardError)], new Cause(CauseKind.GridShift, null, null), null);
        string basis = $"{finding.Measurements} check measurements at {finding.Visits} set-ups, {ClaimSentences.Period(finding.FirstDay, finding.LastDay)}";
        if (finding.StandsOut) return $"{who}: recorded {what} of where it was measured ({basis}). The record is wrong: its piles stand as much elsewhere.";
        return finding.Visits < 3
            ? $"{who}: {basis}; at least three set-ups are needed to test for an offset."
            : $"{who}: no offset of {ClaimSentences.Millimetres(leastSizeMetres)} mm or more is proven ({basis}; mean {what}).";
    }
}
