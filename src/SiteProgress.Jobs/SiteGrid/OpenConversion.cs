using Npgsql;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.SiteGrid;

/// <summary>Gives the operator the ways between a site's frames, for lists too long for a page.</summary>
[WithoutPermit("A command of the operator at the machine.")]
public sealed class OpenConversion(NpgsqlDataSource store)
{
    /// <summary>The way from one frame to another by the adjustment in force, or why there is none.</summary>
    /// <param name="siteCode">The site.</param>
    /// <param name="from">The frame of the points; <see cref="Frame.Geographic"/> with <paramref name="fromOther"/> for another datum.</param>
    /// <param name="to">The frame wanted.</param>
    /// <param name="shift">EPSG code of the published shift; null where both frames are the site's own.</param>
    /// <param name="fromOther">True where the points are on the other datum of the shift.</param>
    /// <param name="toOther">True where they are wanted on it.</param>
    /// <param name="cancellation">Stops the work.</param>
    public async Task<FrameWay> RunAsync(string siteCode, Frame from, Frame to, int? shift, bool fromOther, bool toOther, CancellationToken cancellation)
    {
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        if (await SiteKeys.FindAsync(connection, siteCode, cancellation) is not { } site) return new FrameWay(null, null, $"There is no site '{siteCode}'.");
        return await SiteAdjustments.ReadAsync(store, site, cancellation) is [.., { } current]
            ? FrameWay.Of(SiteAdjustments.Service(current.Body), from, to, shift, fromOther, toOther)
            : new FrameWay(null, null, $"The site {siteCode} has no adjustment of its grid yet.");
    }
}
