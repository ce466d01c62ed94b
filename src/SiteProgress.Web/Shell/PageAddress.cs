using System.Globalization;

namespace SiteProgress.Web.Shell;

/// <summary>
/// An address with its query, from which neighbouring addresses are made: every filter, order and page of a list is a link
/// that can be sent to someone.
/// </summary>
public sealed class PageAddress
{
    private readonly string path;
    private readonly (string Name, string Value)[] query;

    /// <summary>Begins an address without a query.</summary>
    /// <param name="path">The path, beginning with a slash.</param>
    public PageAddress(string path)
        : this(path, [])
    {
    }

    private PageAddress(string path, (string Name, string Value)[] query)
    {
        this.path = path;
        this.query = query;
    }

    /// <summary>The same address with one part of the query set, or left out when the value is null or empty.</summary>
    public PageAddress With(string name, string? value)
    {
        var others = query.Where(part => part.Name != name);
        return new PageAddress(path, string.IsNullOrEmpty(value) ? [.. others] : [.. others, (name, value)]);
    }

    /// <summary>The same address with a whole number in its query.</summary>
    public PageAddress With(string name, int? value) => With(name, value?.ToString(CultureInfo.InvariantCulture));

    /// <summary>The same address with a day in its query.</summary>
    public PageAddress With(string name, DateOnly? value) => With(name, value is { } day ? ShowDay.InAddress(day) : null);

    /// <summary>The same query at another path.</summary>
    public PageAddress At(string otherPath) => new(otherPath, query);

    /// <summary>The address without its query.</summary>
    public string Path => path;

    /// <summary>The parts of the query, for the hidden fields of a form that keeps them.</summary>
    public IEnumerable<(string Name, string Value)> Parts => query;

    /// <inheritdoc />
    public override string ToString()
        => query.Length == 0 ? path : path + "?" + string.Join('&', query.Select(part => Uri.EscapeDataString(part.Name) + "=" + Uri.EscapeDataString(part.Value)));
}
