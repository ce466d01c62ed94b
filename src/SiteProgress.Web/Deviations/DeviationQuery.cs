using SiteProgress.Jobs.Deviations;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Deviations;

/// <summary>What the address of the page asks for, and the addresses beside it.</summary>
public sealed class DeviationQuery
{
    /// <summary>Rows of a page of the list.</summary>
    public static int PageSize => 50;

    private static readonly (string Word, PositionChoice Choice)[] PositionWords =
        [("within", PositionChoice.Within), ("beyond", PositionChoice.Beyond), ("not-judged", PositionChoice.NotJudged)];

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
                asked.Attempt switch { AttemptChoice.First => "built at the first attempt", AttemptChoice.Later => "built after an earlier attempt", _ => null },
                Request.Position switch
                {
                    PositionChoice.Within => "listed: within limit", PositionChoice.Beyond => "listed: beyond limit", PositionChoice.NotJudged => "listed: not judged", _ => null,
                },
            ];
            return $"Chosen: {string.Join(", ", parts.OfType<string>())}.";
        }
    }

    /// <summary>Reads the parts of an address; what cannot be read is not asked for.</summary>
    public static DeviationQuery Read(
        string path, string? zone, string? barge, int? casing, string? from, string? to, string? attempt, string? judged, string? sort, string? order, int? page)
    {
        DeviationSelection selection = new(
            Blank(zone), Blank(barge), casing, ShowDay.FromAddress(from), ShowDay.FromAddress(to), Find(AttemptWords, attempt));
        PositionChoice? position = Find(PositionWords, judged);
        ListDeviations.Order by = Find(OrderWords, sort) ?? ListDeviations.Order.Radial;
        bool descending = order is null ? by <= ListDeviations.Order.Across : order == "desc";
        int shown = Math.Clamp(page ?? 1, 1, int.MaxValue / PageSize);
        PageAddress address = new PageAddress(path)
            .With("zone", selection.Zone).With("barge", selection.Barge).With("casing", selection.Casing).With("from", selection.From).With("to", selection.To)
            .With("attempt", Word(AttemptWords, selection.Attempt)).With("judged", Word(PositionWords, position))
            .With("sort", by == ListDeviations.Order.Radial ? null : Word(OrderWords, (ListDeviations.Order?)by))
            .With("order", descending == (by <= ListDeviations.Order.Across) ? null : descending ? "desc" : "asc");
        return new DeviationQuery(new ListDeviations.Request(selection, position, by, descending, (shown - 1) * PageSize, PageSize), address, shown);
    }

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
