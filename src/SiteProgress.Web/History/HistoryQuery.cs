using System.Globalization;
using NodaTime;
using NodaTime.Text;
using SiteProgress.Jobs.History;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.History;

/// <summary>The query of the history's address.</summary>
public sealed class HistoryQuery
{
    /// <summary>Rows a page.</summary>
    public const int RowsOnPage = 100;

    /// <summary>Groups with their word in addresses and in writing.</summary>
    public static readonly IReadOnlyList<(HistoryGroup Group, string Word, string Words)> Groups =
    [
        (HistoryGroup.Decisions, "decisions", "decisions"),
        (HistoryGroup.Withdrawals, "withdrawals", "withdrawals"),
        (HistoryGroup.Batches, "batches", "batches"),
        (HistoryGroup.People, "people", "roles"),
        (HistoryGroup.Keys, "keys", "keys"),
        (HistoryGroup.Measuring, "measuring", "clocks and gauges"),
        (HistoryGroup.Progress, "progress", "diary and daily reports"),
        (HistoryGroup.Settings, "settings", "settings and site grid"),
    ];

    private HistoryQuery(HistoryFilter filter, int page) => (Filter, Page) = (filter, page);

    /// <summary>What is asked for.</summary>
    public HistoryFilter Filter { get; }

    /// <summary>The page, from 1.</summary>
    public int Page { get; }

    /// <summary>First day, as addresses write it.</summary>
    public string? FromWord => Filter.From is { } day ? LocalDatePattern.Iso.Format(day) : null;

    /// <summary>Last day, as addresses write it.</summary>
    public string? ToWord => Filter.To is { } day ? LocalDatePattern.Iso.Format(day) : null;

    /// <summary>Reads the parts of an address; one nobody understands narrows nothing.</summary>
    public static HistoryQuery Read(string? group, string? by, string? from, string? to, string? page)
    {
        (HistoryGroup Group, string Word, string Words) found = Groups.FirstOrDefault(one => one.Word == group);
        return new HistoryQuery(
            new HistoryFilter(found.Word is null ? null : found.Group, string.IsNullOrEmpty(by) ? null : by, Day(from), Day(to)),
            int.TryParse(page, NumberStyles.None, CultureInfo.InvariantCulture, out int number) ? Math.Clamp(number, 1, 100_000) : 1);
    }

    /// <summary>The word of a group in addresses.</summary>
    public static string? Word(HistoryGroup? group) => group is { } one ? Groups.First(known => known.Group == one).Word : null;

    /// <summary>The address of the first page of what is asked for.</summary>
    public PageAddress Address(string site)
        => new PageAddress($"/sites/{site}/history").With("what", Word(Filter.Group)).With("by", Filter.By).With("from", FromWord).With("to", ToWord);

    /// <summary>The same with one part set or left out.</summary>
    public string With(string site, string name, string? value) => Address(site).With(name, value).ToString();

    private static LocalDate? Day(string? word) => ShowDay.LocalFromAddress(word);
}
