using System.Globalization;
using Microsoft.AspNetCore.WebUtilities;
using Microsoft.Extensions.Primitives;
using NodaTime;
using NodaTime.Text;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Piles;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Piles;

/// <summary>
/// Filter and order of a list of piles as they stand in an address: <c>number</c>, <c>zone</c>, <c>state</c>, <c>barge</c>
/// (each of the last three may be repeated), <c>day</c>, <c>finding</c>, <c>lot</c>, <c>held</c>, <c>reopened=yes</c>, <c>design=changed</c>, <c>sort</c>, <c>order=descending</c>. The map uses the same words.
/// </summary>
/// <param name="Filter">Which piles.</param>
/// <param name="Order">In which order.</param>
/// <param name="Descending">True for the largest first.</param>
public sealed record PileQuery(PileFilter Filter, PileOrder Order, bool Descending)
{
    private const string Falling = "descending";

    /// <summary>Reads an address; words that mean nothing here are left out.</summary>
    /// <param name="query">The part of the address after the question mark.</param>
    public static PileQuery Read(string? query)
    {
        Dictionary<string, StringValues> words = QueryHelpers.ParseQuery(query);
        return Of(name => words.TryGetValue(name, out StringValues values) ? values.ToArray() : []);
    }

    /// <summary>Reads the words of an address that were taken apart already.</summary>
    /// <param name="words">Gives the values of a name, none where the address does not have it.</param>
    public static PileQuery Of(Func<string, IEnumerable<string?>> words)
    {
        ArgumentNullException.ThrowIfNull(words);
        IReadOnlyList<string> Many(string name) => [.. words(name).OfType<string>().Select(word => word.Trim()).Where(word => word.Length > 0).Distinct()];
        string? One(string name) => Many(name) is [.., var last] ? last : null;
        return new PileQuery(
            new PileFilter
            {
                Number = One("number"),
                Zones = Many("zone"),
                States = [.. Many("state").Select(StateWords.FromAddress).OfType<PileState>()],
                Barges = Many("barge"),
                Day = ShowDay.LocalFromAddress(One("day")),
                Finding = OfPiles(One("finding")),
                Lot = Whole(One("lot")),
                HeldBy = Whole(One("held")),
                Reopened = One("reopened") == "yes",
                DesignChanged = One("design") == "changed",
            },
            Word<PileOrder>(One("sort")) ?? PileOrder.Number,
            One("order") == Falling);
    }

    /// <summary>A refusal that names the first word of a program's request that means nothing here; null when all are understood.</summary>
    /// <param name="asked">The parts after the question mark.</param>
    public static IResult? Refusal(IQueryCollection asked)
    {
        ArgumentNullException.ThrowIfNull(asked);
        List<(string Name, string? Sent, bool IsRead, string Expected)> parts =
        [
            .. asked["state"].Select(state => ("state", state, StateWords.FromAddress(state) is not null, string.Join(", ", StateWords.All.Select(StateWords.InAddress)))),
            .. asked["day"].Select(day => AskedParts.Day("day", day)),
            .. asked["finding"].Select(check => ("finding", check, OfPiles(check) is not null, string.Join(", ", CheckNames.OfPiles).ToLowerInvariant())),
            .. asked["lot"].Select(lot => ("lot", lot, Whole(lot) is not null, "the number of a lot")),
            .. asked["held"].Select(hold => ("held", hold, Whole(hold) is not null, "the number of a hold point")),
            .. asked["reopened"].Select(word => ("reopened", word, word is "yes" or "no", "yes or no")),
            .. asked["design"].Select(word => ("design", word, word == "changed", "changed")),
            .. asked["sort"].Select(order => ("sort", order, Word<PileOrder>(order) is not null, Names<PileOrder>())),
            .. asked["order"].Select(order => ("order", order, order is Falling or "ascending", "ascending or descending")),
        ];
        return AskedParts.Refusal([.. parts]);
    }

    /// <summary>The part of an address that says the same, with its question mark; empty when there is nothing to say.</summary>
    public string Text()
    {
        List<KeyValuePair<string, string?>> words = [];
        void Say(string name, string? word)
        {
            if (!string.IsNullOrEmpty(word)) words.Add(new(name, word));
        }

        Say("number", Filter.Number);
        foreach (string zone in Filter.Zones) Say("zone", zone);
        foreach (PileState state in Filter.States) Say("state", StateWords.InAddress(state));
        foreach (string barge in Filter.Barges) Say("barge", barge);
        Say("day", Filter.Day is { } day ? LocalDatePattern.Iso.Format(day) : null);
        Say("finding", Filter.Finding?.ToString().ToLowerInvariant());
        Say("lot", Filter.Lot?.ToString(CultureInfo.InvariantCulture));
        Say("held", Filter.HeldBy?.ToString(CultureInfo.InvariantCulture));
        if (Filter.Reopened) Say("reopened", "yes");
        if (Filter.DesignChanged) Say("design", "changed");
        if (Order != PileOrder.Number) Say("sort", Order.ToString().ToLowerInvariant());
        if (Descending) Say("order", Falling);
        return QueryHelpers.AddQueryString("", words);
    }

    /// <summary>True when the filter leaves anything out.</summary>
    public bool Narrows => With(PileFilter.All).Text() != Text();

    /// <summary>The same list with another filter.</summary>
    public PileQuery With(PileFilter filter) => this with { Filter = filter };

    /// <summary>The list by another column; by the same one again, the other way round.</summary>
    public PileQuery By(PileOrder order) => this with { Order = order, Descending = Order == order && !Descending };

    /// <summary>A list of words with one more, or without it where it holds it already.</summary>
    public static IReadOnlyList<T> Toggle<T>(IReadOnlyList<T> words, T word) => words.Contains(word) ? [.. words.Where(one => !Equals(one, word))] : [.. words, word];

    private static int? Whole(string? word) => int.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out int number) ? number : null;

    private static CheckName? OfPiles(string? word) => Word<CheckName>(word) is { } check && check.IsOfPiles() ? check : null;

    private static string Names<T>()
        where T : struct, Enum
        => string.Join(", ", Enum.GetNames<T>()).ToLowerInvariant();

    private static T? Word<T>(string? word)
        where T : struct, Enum
        => word is not null && !int.TryParse(word, NumberStyles.Integer, CultureInfo.InvariantCulture, out _) && Enum.TryParse(word, ignoreCase: true, out T read) ? read : null;
}
