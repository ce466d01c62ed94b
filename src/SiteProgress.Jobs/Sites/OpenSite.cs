using Npgsql;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Sites;

/// <summary>Opens a site: the operator's command, with the owner's connection, never a page's.</summary>
[WithoutPermit("Sites are opened by the operator at the machine; there is no role on a site before it.")]
public sealed class OpenSite(NpgsqlDataSource ownerStore, SiteRecorder recorder)
{
    /// <summary>Opens a site with its settings, its drawing and the adjustment of its grid.</summary>
    /// <param name="settingsJson">The settings file.</param>
    /// <param name="drawing">Site drawing, GeoJSON in site-grid metres.</param>
    /// <param name="controlPoints">Control points of the site grid.</param>
    /// <param name="cancellation">Stops the work; no site is opened then.</param>
    /// <returns>The site, or why it was not opened.</returns>
    public async Task<OpenSiteResult> RunAsync(
        string settingsJson, string? drawing, IReadOnlyList<ControlPoint> controlPoints, CancellationToken cancellation)
    {
        (SiteSettings? read, string? refusal) = SettingsFile.Read(settingsJson);
        if (read is not { } settings) return OpenSiteResult.Refused(refusal!);
        IReadOnlyList<string> problems = SettingsProblems.Of(settings);
        if (problems.Count > 0) return OpenSiteResult.Refused("The settings are not complete: " + string.Join(" ", problems));
        if (await WktAsync(settings.ProjectedCrs, cancellation) is not { } wkt) return OpenSiteResult.Refused($"There is no EPSG code {settings.ProjectedCrs} in the store's table of coordinate reference systems.");
        ProjectedCrsResult crs = ProjectedCrs.FromWkt(settings.ProjectedCrs, wkt);
        if (!crs.IsMade) return OpenSiteResult.Refused($"EPSG:{settings.ProjectedCrs} is refused: {crs.Refusal}");
        AdjustmentResult fit = SimilarityFit.Solve(controlPoints);
        if (!fit.IsFitted) return OpenSiteResult.Refused($"The site grid cannot be fitted to the control points: {fit.Refusal}");

        int? site = await InsertAsync(settings.Code, cancellation);
        if (site is null) return OpenSiteResult.Refused($"There is a site '{settings.Code}' already.");
        await recorder.AppendAsOperatorAsync(
            site.Value,
            settings.Code,
            _ =>
            [
                new SettingsBody(settings, drawing, First: true),
                new AdjustmentBody(fit.Adjustment, settings.ProjectedCrs, wkt, controlPoints, "Opening of the site."),
            ],
            cancellation);
        return new OpenSiteResult(site, settings.Code, null);
    }

    private async Task<string?> WktAsync(int epsg, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = ownerStore.CreateCommand("select srtext from public.spatial_ref_sys where auth_name = 'EPSG' and auth_srid = $1");
        command.Parameters.AddWithValue(epsg);
        return await command.ExecuteScalarAsync(cancellation) as string;
    }

    private async Task<int?> InsertAsync(string code, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = ownerStore.CreateCommand(
            """
            with opened as (
                insert into record.site (code, opened_at) values ($1, now()) on conflict (code) do nothing returning site
            )
            insert into derived.site_state (site, sequence, hash, rules_version)
            select site, 0, decode(repeat('00', 32), 'hex'), 0 from opened returning site
            """);
        command.Parameters.AddWithValue(code);
        return await command.ExecuteScalarAsync(cancellation) as int?;
    }
}

/// <summary>What became of opening a site.</summary>
/// <param name="Site">Key of the site.</param>
/// <param name="Code">Its code.</param>
/// <param name="Refusal">Why it was not opened.</param>
public sealed record OpenSiteResult(int? Site, string? Code, string? Refusal)
{
    internal static OpenSiteResult Refused(string reason) => new(null, null, reason);
}
