namespace SiteProgress.Web.Shell;

/// <summary>The search box of every page: a pile number leads to the pile's record.</summary>
internal static class FindPile
{
    public static void Map(WebApplication app)
        => app.MapGet("/sites/{site}/find", (string site, string? pile) =>
            Results.LocalRedirect(string.IsNullOrWhiteSpace(pile)
                ? $"/sites/{Uri.EscapeDataString(site)}/piles"
                : $"/sites/{Uri.EscapeDataString(site)}/piles/{Uri.EscapeDataString(pile.Trim().ToUpperInvariant())}"))
            .ExcludeFromDescription();
}
