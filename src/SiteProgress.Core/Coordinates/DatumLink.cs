namespace SiteProgress.Core.Coordinates;

/// <summary>A published shift as it is used at a site: between the geographic system of the site's projected CRS and another one.</summary>
/// <param name="Shift">The shift.</param>
/// <param name="LeadsToSite">True where the shift's own direction is from the other system to that of the site; else it is used backwards.</param>
public sealed record DatumLink(DatumShift Shift, bool LeadsToSite)
{
    /// <summary>The other geographic system.</summary>
    public GeographicSystem Other => LeadsToSite ? Shift.From : Shift.To;

    /// <summary>Positions on the other datum to positions on the datum of the site; NaN for what is not a number. The two spans may be the same.</summary>
    public void ToSite(ReadOnlySpan<GeographicCoordinate> other, Span<GeographicCoordinate> site)
    {
        if (LeadsToSite) Shift.Forward(other, site);
        else Shift.Inverse(other, site);
    }

    /// <summary>Positions on the datum of the site to positions on the other datum; NaN for what is not a number. The two spans may be the same.</summary>
    public void FromSite(ReadOnlySpan<GeographicCoordinate> site, Span<GeographicCoordinate> other)
    {
        if (LeadsToSite) Shift.Inverse(site, other);
        else Shift.Forward(site, other);
    }
}

/// <summary>What the register offers between a site's geographic system and one other.</summary>
/// <param name="OtherCode">EPSG code of the other system.</param>
/// <param name="OtherName">Its name.</param>
/// <param name="Links">Published shifts that can be computed here, the most accurate first; empty where only grid files lead there.</param>
/// <param name="BetterByGrid">A published transformation that needs a grid file and is more accurate than all of them; null where there is none.</param>
public sealed record LinkedSystem(int OtherCode, string OtherName, IReadOnlyList<DatumLink> Links, GridShift? BetterByGrid);
