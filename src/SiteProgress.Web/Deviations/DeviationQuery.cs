using System.Globalization;
using SiteProgress.Jobs.Deviations;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Deviations;

/// <summary>The parts of an address that frames on pictures set, and the shift.</summary>
/// <param name="Shift">Shift.</param>
/// <param name="Deviating">dE from, to, dN from, to, millimetres.</param>
/// <param name="Place">First axis from, to, second axis from, to, metres.</param>
/// <param name="Radial">Radial deviation from, below, millimetres.</param>
public sealed record Framed(string? Shift, string? Deviating, string? Place, string? Radial);

/// <summary>What the address of the page asks for, and the addresses beside it.</summary>
public sealed class DeviationQuery
{
    /// <summary>Rows of a page of the list.</summary>
    public static int PageSize => 50;

    private static readonly (string Word, PositionChoice Choice)[] PositionWords =
        [("within", PositionChoice.Within), ("beyond", PositionChoice.Beyond), ("not-judged", PositionChoice.NotJudged), ("alert", PositionChoice.Alert)];

    private static readonly (string Word, AttemptChoice Choice)[] AttemptWords = [("first", AttemptChoice.First), ("later", AttemptChoice.Later)];

    private static readonly (string Word, ListDeviations.Order Order)[] OrderWords =
    [
        ("radial", ListDeviations.Order.Radial), ("of-limit", ListDeviations.Order.OfLimit), ("east", ListDeviations.Order.East), ("north", ListDeviations.Order.North),
        ("along", ListDeviations.Order.Along), ("across", ListDeviations.Order.Across), ("number", ListDeviations.Order.Number), ("zone", ListDeviations.Order.Zone),
        ("barge", ListDeviations.Order.Barge), ("day", ListDeviations.Order.Day),
    ];

    private DeviationQuery(ListDeviations.Request request, PageAddress address, int page)
    {
        Request = request;
        Address = address;
        Page = page;
    }

    /// <summary>The rows asked for.</summary>
    public ListDeviations.Request Request { get; }

    /// <summary>The address that asks for exactly this.</summary>
    public PageAddress Address { get; }

    /// <summary>Page of the list, from 1.</summary>
    public int Page { get; }

    /// <summary>The piles asked for.</summary>
    public DeviationSelection Selection => Request.Selection;

    /// <summary>The columns that can be sorted by, as a list in words.</summary>
    public static string OrdersInWords => "one of " + string.Join(", ", OrderWords.Select(one => one.Word));

    /// <summary>True when the word names a column that can be sorted by.</summary>
    public static bool IsOrder(string? word) => Find(OrderWords, word) is not null;

    /// <summary>What is asked for, as a sentence for prints.</summary>
    public string Words
    {
        get
        {
            DeviationSelection asked = Selection;
            string?[] parts =
            [
                asked.Zone is { } zone ? $"zone {zone}" : "all zones",
                asked.Barge is { } barge ? $"barge {barge}" : "all barges",
                asked.Casing is { } casing ? $"casing {Show.Count(casing)}" : "all casings",
                asked.From is { } from ? $"from {ShowDay.InAddress(from)}" : null,
                asked.To is { } to ? $"to {ShowDay.InAddress(to)}" : null,
                asked.Shift is { } shift ? $"shift {shift}" : null,
                asked.Deviating is { } off ? string.Create(CultureInfo.InvariantCulture, $"dE {off.FirstFrom * 1000:0} to {off.FirstTo * 1000:0} mm and dN {off.SecondFrom * 1000:0} to {off.SecondTo * 1000:0} mm") : null,
                asked.Place is { } place ? string.Create(CultureInfo.InvariantCulture, $"design positions from {place.FirstFrom:0.0} to {place.FirstTo:0.0} m and from {place.SecondFrom:0.0} to {place.SecondTo:0.0} m") : null,
                asked.RadialFrom is { } least && asked.RadialBelow is { } most ? string.Create(CultureInfo.InvariantCulture, $"radial {least * 1000:0} to {most * 1000:0} mm") : null,
                asked.Attempt switch { AttemptChoice.First => "built at the first attempt", AttemptChoice.Later => "built after an earlier attempt", _ => null },
                Request.Position switch
                {
                    PositionChoice.Within => "listed: within limit", PositionChoice.Beyond => "listed: beyond limit", PositionChoice.NotJudged => "listed: not judged", PositionChoice.Alert => "listed: beyond the alert", _ => null,
                },
            ];
            return $"Chosen: {string.Join(", ", parts.OfType<string>())}.";
        }
    }

    /// <summary>Reads the parts of an address; what cannot be read is not asked for.</summary>
    public static DeviationQuery Read(
        string path, string? zone, string? barge, int? casing, string? from, string? to, string? attempt, string? judged, string? sort, string? order, int? page,
        Framed? framed = null)
    {
        (double? radialFrom, double? radialBelow) = Pair(framed?.Radial);
        DeviationSelection selection = new(
            Blank(zone), Blank(barge), casing, ShowDay.FromAddress(from), ShowDay.FromAddress(to), Find(AttemptWords, attempt), Blank(framed?.Shift),
            BoxOf(framed?.Deviating, 1000), BoxOf(framed?.Place, 1), radialFrom, radialBelow);
        PositionChoice? position = Find(PositionWords, judged);
        ListDeviations.Order by = Find(OrderWords, sort) ?? ListDeviations.Order.Radial;
        bool descending = order is null ? by <= ListDeviations.Order.Across : order == "desc";
        int shown = Math.Clamp(page ?? 1, 1, int.MaxValue / PageSize);
        PageAddress address = new PageAddress(path)
            .With("zone", selection.Zone).With("barge", selection.Barge).With("casing", selection.Casing).With("from", selection.From).With("to", selection.To)
            .With("attempt", Word(AttemptWords, selection.Attempt)).With("shift", selection.Shift).With("frame", Text(selection.Deviating, 1000))
            .With("place", Text(selection.Place, 1)).With("radial", Text(selection.RadialFrom, selection.RadialBelow)).With("judged", Word(PositionWords, position))
            .With("sort", by == ListDeviations.Order.Radial ? null : Word(OrderWords, (ListDeviations.Order?)by))
            .With("order", descending == (by <= ListDeviations.Order.Across) ? null : descending ? "desc" : "asc");
        return new DeviationQuery(new ListDeviations.Request(selection, position, by, descending, (shown - 1) * PageSize, PageSize), address, shown);
    }

    /// <summary>
    /// The map narrowed as this selection is, as far as the map can be: by zone, barge, one day, or as of the last day.
    /// </summary>
    /// <param name="path">Path of the map.</param>
    public PageAddress OnMap(string path)
    {
        bool oneDay = Selection.From is not null && Selection.From == Selection.To;
        return new PageAddress(path).With("zone", Selection.Zone).With("barge", Selection.Barge)
            .With("day", oneDay ? Selection.To : null).With("through", oneDay ? null : Selection.To);
    }

    /// <summary>True where the map can be narrowed by all that is asked for.</summary>
    public bool IsWhollyOnMap
        => (Selection.From is null || Selection.From == Selection.To)
            && Selection with { Zone = null, Barge = null, From = null, To = null } == DeviationSelection.All;

    /// <summary>The address with another value of a filter, back on the first page.</summary>
    public string With(string name, string? value) => Address.With(name, value).ToString();

    /// <summary>The address of a page of the list.</summary>
    public string PageOf(int page) => Address.With("page", page > 1 ? page : null).ToString();

    /// <summary>The address that sorts by a column; by the same column again turns the order round.</summary>
    public string SortedBy(ListDeviations.Order by)
    {
        bool usual = by <= ListDeviations.Order.Across;
        bool descending = Request.OrderedBy == by ? !Request.Descending : usual;
        return Address.With("sort", by == ListDeviations.Order.Radial ? null : Word(OrderWords, (ListDeviations.Order?)by))
            .With("order", descending == usual ? null : descending ? "desc" : "asc").ToString();
    }

    /// <summary>The address with a frame drawn on the deviations (millimetres), or with none.</summary>
    public string WithFrame(ChartFrame? frame)
        => With("frame", frame is null ? null : Text(new Box(frame.XFrom / 1000, frame.XTo / 1000, frame.YFrom / 1000, frame.YTo / 1000), 1000));

    /// <summary>The address with a frame drawn on the plan (metres on the site grid), or with none.</summary>
    public string WithPlace(ChartFrame? frame)
        => With("place", frame is null ? null : Text(new Box(frame.XFrom, frame.XTo, frame.YFrom, frame.YTo), 1));

    /// <summary>The address with a range of the radial deviation (millimetres), or with none.</summary>
    public string WithRadial(ChartFrame? frame)
        => With("radial", frame is null ? null : Text(Math.Max(0, frame.XFrom) / 1000, frame.XTo / 1000));

    /// <summary>The address with the days of a frame drawn over time, or with all days.</summary>
    /// <param name="frame">Its places along the axis of days; null for all days.</param>
    /// <param name="days">The days of the axis, in order.</param>
    public string WithDays(ChartFrame? frame, DateOnly[] days)
    {
        DateOnly? At(double place) => frame is null || days.Length == 0 ? null : days[(int)Math.Clamp(Math.Round(place), 0, days.Length - 1)];
        return Address.With("from", At(frame?.XFrom ?? 0)).With("to", At(frame?.XTo ?? 0)).ToString();
    }

    /// <summary>The address that chooses one casing of a barge.</summary>
    public string WithCasing(string barge, int? casing) => Address.With("barge", barge).With("casing", casing).ToString();

    /// <summary>Four whole or decimal numbers parted by commas, in the unit of the address.</summary>
    internal static Box? BoxOf(string? text, double unit)
    {
        double[] numbers = Numbers(text);
        return numbers.Length == 4 ? new Box(numbers[0] / unit, numbers[1] / unit, numbers[2] / unit, numbers[3] / unit) : null;
    }

    /// <summary>Two numbers parted by a comma, millimetres, as metres.</summary>
    internal static (double? From, double? Below) Pair(string? text)
        => Numbers(text) is [double from, double below] ? (from / 1000, below / 1000) : (null, null);

    private static double[] Numbers(string? text)
    {
        string[] parts = text?.Split(',') ?? [];
        double[] numbers = parts.Select(part => double.TryParse(part, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number) ? number : double.NaN).ToArray();
        return numbers.Any(double.IsNaN) ? [] : numbers;
    }

    private static string? Text(Box? box, double unit)
        => box is { } given ? string.Join(',', new[] { given.FirstFrom, given.FirstTo, given.SecondFrom, given.SecondTo }.Select(value => (value * unit).ToString("0.##", CultureInfo.InvariantCulture))) : null;

    private static string? Text(double? from, double? below)
        => from is { } least && below is { } most ? string.Create(CultureInfo.InvariantCulture, $"{least * 1000:0.##},{most * 1000:0.##}") : null;

    /// <summary>Word of a choice in the address.</summary>
    public static string Of(PositionChoice choice) => Word(PositionWords, (PositionChoice?)choice)!;

    /// <summary>Word of a choice in the address.</summary>
    public static string Of(AttemptChoice choice) => Word(AttemptWords, (AttemptChoice?)choice)!;

    private static string? Blank(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();

    private static T? Find<T>((string Word, T Choice)[] words, string? word)
        where T : struct
        => words.Where(one => one.Word == word).Select(one => (T?)one.Choice).FirstOrDefault();

    private static string? Word<T>((string Word, T Choice)[] words, T? choice)
        where T : struct
        => choice is { } chosen ? words.First(one => EqualityComparer<T>.Default.Equals(one.Choice, chosen)).Word : null;
}
