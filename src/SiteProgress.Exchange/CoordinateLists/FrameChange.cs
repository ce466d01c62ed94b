using System.Runtime.CompilerServices;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Exchange.CoordinateLists;

/// <summary>From which frame to which points go, and by which published shifts where a frame is geographic on another datum.</summary>
/// <param name="From">The frame of the points.</param>
/// <param name="To">The frame wanted.</param>
/// <param name="FromDatum">Where the points are geographic on another datum: the shift that leads to the datum of the site.</param>
/// <param name="ToDatum">Where they are wanted on another datum: the shift that leads there.</param>
public sealed record FrameChange(Frame From, Frame To, DatumLink? FromDatum = null, DatumLink? ToDatum = null)
{
    /// <summary>Points of one block at most: three blocks of them stand on the stack.</summary>
    public static int MostPoints => 512;

    /// <summary>Converts a block of points; what has no place in the wanted frame becomes NaN.</summary>
    /// <param name="service">The ways between the frames of the site.</param>
    /// <param name="given">Two numbers a point, in the frame of the points.</param>
    /// <param name="wanted">Gets two numbers a point, in the frame wanted.</param>
    /// <param name="outsideMetres">
    /// Gets how far each point lies outside the area in which the projected CRS may be used, metres; 0 inside, and 0 for all where
    /// neither frame is geographic or the area is not known.
    /// </param>
    /// <remarks>Compiled to its best at once: a command is over before the run time would find it worth it.</remarks>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Convert(
        CoordinateService service, ReadOnlySpan<(double First, double Second)> given, Span<(double First, double Second)> wanted, Span<double> outsideMetres)
    {
        ArgumentNullException.ThrowIfNull(service);
        if (given.Length > MostPoints || wanted.Length != given.Length || outsideMetres.Length != given.Length)
            throw new ArgumentException("A block holds at most so many points, and the three spans have one length.", nameof(given));
        Span<ProjectedCoordinate> projected = stackalloc ProjectedCoordinate[given.Length];
        Span<GeographicCoordinate> geographic = stackalloc GeographicCoordinate[given.Length];
        Span<SiteCoordinate> site = stackalloc SiteCoordinate[given.Length];
        ToProjected(service, given, projected, geographic, site);
        if (To == Frame.Geographic) service.ProjectedToGeographic(projected, geographic);
        if (To == Frame.SiteGrid) service.ProjectedToSite(projected, site);
        MeasureOutside(service.Crs, geographic, outsideMetres);
        if (To == Frame.Geographic) ToDatum?.FromSite(geographic, geographic);
        for (var i = 0; i < given.Length; i++)
        {
            wanted[i] = To switch
            {
                Frame.SiteGrid => (site[i].XMetres, site[i].YMetres),
                Frame.ProjectedCrs => (projected[i].EastingMetres, projected[i].NorthingMetres),
                _ => (geographic[i].LatitudeDegrees, geographic[i].LongitudeDegrees),
            };
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void ToProjected(
        CoordinateService service, ReadOnlySpan<(double First, double Second)> given, Span<ProjectedCoordinate> projected,
        Span<GeographicCoordinate> geographic, Span<SiteCoordinate> site)
    {
        for (var i = 0; i < given.Length; i++)
        {
            projected[i] = new(given[i].First, given[i].Second);
            geographic[i] = new(given[i].First, given[i].Second);
            site[i] = new(given[i].First, given[i].Second);
        }

        if (From == Frame.Geographic)
        {
            FromDatum?.ToSite(geographic, geographic);
            service.GeographicToProjected(geographic, projected);
        }

        if (From == Frame.SiteGrid) service.SiteToProjected(site, projected);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void MeasureOutside(ProjectedCrs crs, ReadOnlySpan<GeographicCoordinate> geographic, Span<double> outsideMetres)
    {
        if (crs.AreaOfUse is not { } area || (From != Frame.Geographic && To != Frame.Geographic))
        {
            outsideMetres.Clear();
            return;
        }

        for (var i = 0; i < outsideMetres.Length; i++) outsideMetres[i] = area.DistanceOutsideMetres(geographic[i]);
    }
}
