using System.Globalization;
using SiteProgress.Core.Coordinates.Definitions;

namespace SiteProgress.Core.Coordinates;

/// <summary>What the register offers between two geographic systems at a place.</summary>
/// <param name="Shifts">Published shifts that can be computed here, the most accurate first.</param>
/// <param name="BetterByGrid">A published transformation that needs a grid file and is more accurate than all of them; null where there is none.</param>
public sealed record DatumShiftChoice(IReadOnlyList<DatumShift> Shifts, GridShift? BetterByGrid);

/// <summary>A published transformation that needs a grid file this software does not carry.</summary>
/// <param name="EpsgCode">Its code.</param>
/// <param name="Name">Its name.</param>
/// <param name="AccuracyMetres">Its stated accuracy, metres.</param>
public sealed record GridShift(int EpsgCode, string Name, double AccuracyMetres);

/// <summary>The published shifts between geographic systems, from the EPSG register. Nothing here is applied by itself: a person chooses.</summary>
public static class DatumShifts
{
    private sealed record Row(int From, string FromName, int To, string ToName, AreaOfUse Area, DatumShift? Shift, GridShift? Grid);

    private static readonly Lazy<Row[]> Rows = new(() => [.. EmbeddedTable.Rows("registered-shifts.csv", 26).Select(Read)]);

    /// <summary>The shift of a code of the register; null where it is unknown, no longer valid or needs a grid file.</summary>
    public static DatumShift? Find(int epsgCode) => Rows.Value.Select(r => r.Shift).FirstOrDefault(s => s?.EpsgCode == epsgCode);

    /// <summary>What leads from one geographic system to another at a place.</summary>
    /// <param name="fromCode">EPSG code of the geographic system one has.</param>
    /// <param name="toCode">EPSG code of the one wanted.</param>
    /// <param name="place">Where the site is; shifts whose area of use does not hold it are left out.</param>
    public static DatumShiftChoice At(int fromCode, int toCode, GeographicCoordinate place)
    {
        var here = Rows.Value.Where(r => r.From == fromCode && r.To == toCode && r.Area.Contains(place)).ToArray();
        DatumShift[] shifts = [.. here.Select(r => r.Shift).OfType<DatumShift>().OrderBy(s => s.AccuracyMetres).ThenByDescending(s => s.EpsgCode)];
        var grid = here.Select(r => r.Grid).OfType<GridShift>().MinBy(g => g.AccuracyMetres);
        return new(shifts, grid is not null && (shifts.Length == 0 || grid.AccuracyMetres < shifts[0].AccuracyMetres) ? grid : null);
    }

    /// <summary>Every geographic system that a published transformation links with that of a site, whichever way it was published, by name.</summary>
    /// <param name="siteCode">EPSG code of the geographic system of the site's projected CRS.</param>
    /// <param name="place">Where the site is; transformations whose area of use does not hold it are left out.</param>
    public static IReadOnlyList<LinkedSystem> Around(int siteCode, GeographicCoordinate place)
    {
        var here = Rows.Value.Where(r => (r.From == siteCode) != (r.To == siteCode) && r.Area.Contains(place));
        return
        [
            .. here.GroupBy(r => r.To == siteCode ? (Code: r.From, Name: r.FromName) : (Code: r.To, Name: r.ToName))
                .Select(other => Linked(other.Key.Code, other.Key.Name, siteCode, [.. other]))
                .OrderBy(other => other.OtherName, StringComparer.Ordinal),
        ];
    }

    private static LinkedSystem Linked(int code, string name, int siteCode, Row[] rows)
    {
        DatumLink[] links = [.. rows.Where(r => r.Shift is not null).Select(r => new DatumLink(r.Shift!, r.To == siteCode))
            .OrderBy(link => link.Shift.AccuracyMetres).ThenByDescending(link => link.Shift.EpsgCode)];
        var grid = rows.Select(r => r.Grid).OfType<GridShift>().MinBy(g => g.AccuracyMetres);
        return new(code, name, links, grid is not null && (links.Length == 0 || grid.AccuracyMetres < links[0].Shift.AccuracyMetres) ? grid : null);
    }

    private static Row Read(string[] cells)
    {
        double Number(int i) => double.Parse(cells[i], CultureInfo.InvariantCulture);
        int Code(int i) => int.Parse(cells[i], CultureInfo.InvariantCulture);
        GeographicSystem System(int i) => new(Code(i), cells[i + 1], Ellipsoid.FromInverseFlattening("", Number(i + 2), Number(i + 3)));
        GeocentricCoordinate Triple(int i) => new(Number(i), Number(i + 1), Number(i + 2));
        var area = new AreaOfUse(Number(22), Number(23), Number(24), Number(25));
        if (cells[2] == "grid") return new(Code(3), cells[4], Code(7), cells[8], area, null, new(Code(0), cells[1], Number(11)));
        var convention = cells[2] switch
        {
            "9606" or "1063" => RotationConvention.PositionVector,
            "9607" or "9636" => RotationConvention.CoordinateFrame,
            _ => RotationConvention.None,
        };
        return new(Code(3), cells[4], Code(7), cells[8], area, new(
            Code(0), cells[1], System(3), System(7), Number(11), convention, Triple(12), Triple(15), Number(18), Triple(19), area), null);
    }
}
