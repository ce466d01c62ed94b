namespace SiteProgress.Web.Shell;

/// <summary>
/// Background tiles, only where the operator names a source: <c>SiteProgress:TileSource</c> (an address with {z}, {x} and {y}),
/// <c>SiteProgress:TileCredit</c> (what its owner wants said) and <c>SiteProgress:TileMaxZoom</c>.
/// </summary>
/// <param name="Template">Address with {z}, {x} and {y}.</param>
/// <param name="MaxZoom">Deepest zoom the source has.</param>
/// <param name="Credit">What the source's owner wants said on the map.</param>
internal sealed record TileSource(string Template, int MaxZoom, string? Credit)
{
    /// <summary>The source of the configuration, or null.</summary>
    public static TileSource? From(IConfiguration configuration)
        => configuration["SiteProgress:TileSource"] is { Length: > 0 } template
            ? new TileSource(template, configuration.GetValue("SiteProgress:TileMaxZoom", 19), configuration["SiteProgress:TileCredit"])
            : null;
}
