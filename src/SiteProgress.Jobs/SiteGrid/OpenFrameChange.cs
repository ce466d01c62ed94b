using Npgsql;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.CoordinateLists;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.SiteGrid;

/// <summary>Opens the way from one frame of a site to another, for lists that stream through without being held.</summary>
public sealed class OpenFrameChange(NpgsqlDataSource store)
{
    /// <summary>The way, or why there is none.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="from">The frame of the points; <see cref="Frame.Geographic"/> with <paramref name="fromOther"/> for another datum.</param>
    /// <param name="to">The frame wanted.</param>
    /// <param name="shift">EPSG code of the published shift; null where both frames are the site's own.</param>
    /// <param name="fromOther">True where the points are on the other datum of the shift.</param>
    /// <param name="toOther">True where they are wanted on it.</param>
    /// <param name="cancellation">Stops the work.</param>
    [Needs(Right.See)]
    public async Task<FrameWay> RunAsync(Permit permit, Frame from, Frame to, int? shift, bool fromOther, bool toOther, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        if (await SiteAdjustments.ReadAsync(store, permit.Site, cancellation) is not [.., { } current]) return new FrameWay(null, null, "The site has no adjustment of its grid yet.");
        return FrameWay.Of(SiteAdjustments.Service(current.Body), from, to, shift, fromOther, toOther);
    }
}

/// <summary>A way between two frames.</summary>
/// <param name="Service">The ways between the site's own frames.</param>
/// <param name="Change">From where to where.</param>
/// <param name="Refusal">Why there is none.</param>
public sealed record FrameWay(CoordinateService? Service, FrameChange? Change, string? Refusal)
{
    /// <summary>The way between two frames of a site, or the refusal of a shift that may not be used there.</summary>
    internal static FrameWay Of(CoordinateService service, Frame from, Frame to, int? shift, bool fromOther, bool toOther)
    {
        if (!fromOther && !toOther) return new FrameWay(service, new FrameChange(from, to), null);
        (DatumLink? link, string? refusal) = SiteDatums.Find(service, shift);
        return link is null ? new FrameWay(null, null, refusal) : new FrameWay(service, new FrameChange(from, to, fromOther ? link : null, toOther ? link : null), null);
    }
}
