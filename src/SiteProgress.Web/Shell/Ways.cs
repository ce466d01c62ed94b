using System.Reflection;
using Microsoft.AspNetCore.Components;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Web.Shell;

/// <summary>One way to go from every page of a site.</summary>
/// <param name="Word">What the link says.</param>
/// <param name="Path">The part of the address after the site.</param>
/// <param name="Needs">The right without which the page is of no use.</param>
public sealed record Way(string Word, string Path, Right Needs = Right.See)
{
    /// <summary>The address of the page on a site.</summary>
    public string Address(string site) => $"/sites/{site}/{Path}";
}

/// <summary>The ways to go, in order. Those whose page exists are shown; a page that is added appears by itself.</summary>
public static class Ways
{
    /// <summary>How many ways stand in the bar of a phone; the others open from it.</summary>
    public const int AlwaysInSight = 4;

    private static readonly Way[] InOrder =
    [
        new("Today", "today"),
        new("Map", "map"),
        new("Progress", "progress"),
        new("Daily report", "daily-report"),
        new("Sand account", "sand"),
        new("Deviations", "deviations"),
        new("Outstanding", "outstanding"),
        new("Piles", "piles"),
        new("Design", "design"),
        new("Ground", "ground"),
        new("Decisions", "decisions"),
        new("Reports", "reports"),
        new("Records in", "records-in"),
        new("Calibrations", "calibrations"),
        new("Senders", "senders"),
        new("History", "history"),
        new("Site grid", "site-grid"),
        new("Site settings", "settings"),
        new("People", "people"),
    ];

    private static readonly HashSet<string> Pages = [.. typeof(Ways).Assembly.GetTypes()
        .SelectMany(type => type.GetCustomAttributes<RouteAttribute>())
        .Select(route => route.Template.ToLowerInvariant())];

    /// <summary>The ways a role can go.</summary>
    public static IEnumerable<Way> For(Role role)
        => InOrder.Where(way => RoleRights.Holds(role, way.Needs) && Pages.Contains($"/sites/{{site}}/{way.Path}"));
}
