using Microsoft.EntityFrameworkCore;
using Npgsql;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.Sites;
using SiteProgress.Storage;
using SiteProgress.Storage.Derived;

namespace SiteProgress.Jobs.SiteGrid;

/// <summary>How the site grid lies in the projected CRS, how well its marks agree, and who adopted that.</summary>
public sealed class ReadSiteGrid(IDbContextFactory<SiteProgressDb> database, NpgsqlDataSource store, SiteHistories histories)
{
    /// <summary>The site grid; null before an adjustment is adopted.</summary>
    [Needs(Right.See)]
    public async Task<SiteGridRead?> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        IReadOnlyList<AdoptedAdjustment> adopted = await SiteAdjustments.ReadAsync(store, permit.Site, cancellation);
        if (adopted is not [.., { } current]) return null;
        CoordinateService service = SiteAdjustments.Service(current.Body);
        AdjustmentResult fit = FitAgain(current.Body);
        GeographicCoordinate middle = service.ToGeographic(current.Body.Adjustment.SiteOrigin);
        return new SiteGridRead(
            (await ReadSettings.InForceAsync(store, permit.Site, cancellation))!,
            service.Crs,
            current,
            fit.Quality,
            fit.IsFitted ? SiteScale.Judge(fit, service.Crs) : null,
            ControlPointCover.Look(current.Body.ControlPoints, await DesignAsync(permit.Site, cancellation)).Warning,
            middle,
            service.DistortionAt(middle),
            adopted.Reverse().Skip(1).ToArray(),
            SiteDatums.Around(service),
            (await histories.ReadAsync(permit.Site, cancellation)).OfferedCrs);
    }

    /// <summary>The fit from the same marks once more, for its residuals and tests; they follow from the record and are not stored.</summary>
    private static AdjustmentResult FitAgain(AdjustmentBody adopted) => AdjustmentFit.Solve(
        adopted.Adjustment.Kind, adopted.ControlPoints, adopted.Adjustment.IsLeftHanded ? SiteAxes.LeftHanded : SiteAxes.RightHanded,
        adopted.Adjustment.Scale, adopted.Adjustment.Revision);

    private async Task<SiteCoordinate[]> DesignAsync(int site, CancellationToken cancellation)
    {
        await using SiteProgressDb db = await database.CreateDbContextAsync(cancellation);
        var piles = await db.Set<PileRow>().AsNoTracking().Where(pile => pile.Site == site)
            .Select(pile => new { pile.DesignX, pile.DesignY }).ToArrayAsync(cancellation);
        return Array.ConvertAll(piles, pile => new SiteCoordinate(pile.DesignX, pile.DesignY));
    }
}

/// <summary>A site grid as read.</summary>
/// <param name="Settings">Settings in force.</param>
/// <param name="Crs">The projected CRS.</param>
/// <param name="Adopted">The adjustment in force.</param>
/// <param name="Quality">Residuals, errors and warnings of the fit.</param>
/// <param name="Scale">Which distances the scale fits.</param>
/// <param name="CoverWarning">What to say where the marks do not surround the design.</param>
/// <param name="Middle">Middle of the marks.</param>
/// <param name="AtMiddle">Grid convergence and scale there.</param>
/// <param name="Earlier">Earlier adjustments, the latest first.</param>
/// <param name="Datums">Other geographic systems that a published transformation links with the site's.</param>
/// <param name="OfferedCrs">Projected systems at the surveyor's disposal.</param>
public sealed record SiteGridRead(
    SiteSettings Settings,
    ProjectedCrs Crs,
    AdoptedAdjustment Adopted,
    AdjustmentQuality? Quality,
    SiteScale? Scale,
    string? CoverWarning,
    GeographicCoordinate Middle,
    GridDistortion AtMiddle,
    IReadOnlyList<AdoptedAdjustment> Earlier,
    IReadOnlyList<LinkedSystem> Datums,
    IReadOnlyList<OfferedCrs> OfferedCrs);
