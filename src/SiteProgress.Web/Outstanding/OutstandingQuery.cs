using SiteProgress.Jobs.Outstanding;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Outstanding;

/// <summary>What the address of the page asks for, and the addresses beside it.</summary>
public sealed class OutstandingQuery
{
    /// <summary>Rows of a page of the list.</summary>
    public static int PageSize => 100;

    private static readonly (string Word, OutstandingKind Kind)[] KindWords =
    [
        ("gaps", OutstandingKind.Gap), ("rows", OutstandingKind.UnfinishedRow), ("attempted", OutstandingKind.Attempted), ("awaiting", OutstandingKind.AwaitingDecision), ("not-attempted", OutstandingKind.NotAttempted),
    ];

    private OutstandingQuery(ReadOutstanding.Request request, PageAddress address, int page)
    {
        Request = request;
        Address = address;
        Page = page;
    }

    /// <summary>The rows asked for.</summary>
    public ReadOutstanding.Request Request { get; }

    /// <summary>The address that asks for exactly this.</summary>
    public PageAddress Address { get; }

    /// <summary>Page of the list, from 1.</summary>
    public int Page { get; }

    /// <summary>Reads the parts of an address; what cannot be read is not asked for.</summary>
    public static OutstandingQuery Read(string path, string? zone, string? what, string? sort, string? order, int? page)
    {
        string? ofZone = string.IsNullOrWhiteSpace(zone) ? null : zone.Trim();
        OutstandingKind? kind = KindWords.Where(one => one.Word == what).Select(one => (OutstandingKind?)one.Kind).FirstOrDefault();
        ReadOutstanding.Order by = Enum.TryParse(sort, ignoreCase: true, out ReadOutstanding.Order asked) && Enum.IsDefined(asked) ? asked : ReadOutstanding.Order.Number;
        bool descending = order == "desc";
        int shown = Math.Clamp(page ?? 1, 1, int.MaxValue / PageSize);
        PageAddress address = new PageAddress(path).With("zone", ofZone).With("what", kind is { } chosen ? Of(chosen) : null)
            .With("sort", by == ReadOutstanding.Order.Number ? null : Word(by)).With("order", descending ? "desc" : null);
        return new OutstandingQuery(new ReadOutstanding.Request(ofZone, kind, by, descending, (shown - 1) * PageSize, PageSize), address, shown);
    }

    /// <summary>The address with another value of a filter, back on the first page.</summary>
    public string With(string name, string? value) => Address.With(name, value).ToString();

    /// <summary>The address of a page of the list.</summary>
    public string PageOf(int page) => Address.With("page", page > 1 ? page : null).ToString();

    /// <summary>The address that sorts by a column; by the same column again turns the order round.</summary>
    public string SortedBy(ReadOutstanding.Order by)
        => Address.With("sort", by == ReadOutstanding.Order.Number ? null : Word(by))
            .With("order", Request.OrderedBy == by && !Request.Descending ? "desc" : null).ToString();

    /// <summary>Word of a choice in the address.</summary>
    public static string Of(OutstandingKind kind) => KindWords.First(one => one.Kind == kind).Word;

    private static string Word(ReadOutstanding.Order by)
#pragma warning disable CA1308 // Words of an address are written small; nothing is compared by them.
        => by.ToString().ToLowerInvariant();
#pragma warning restore CA1308
}
