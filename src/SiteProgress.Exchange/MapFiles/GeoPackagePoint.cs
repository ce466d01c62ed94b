using System.Buffers.Binary;
using System.Globalization;

namespace SiteProgress.Exchange.MapFiles;

/// <summary>The point in a GeoPackage geometry (OGC 12-128r19, clause 2.1.3): a header, then well-known binary.</summary>
internal static class GeoPackagePoint
{
    private static readonly string[] Types = ["Geometry", "Point", "LineString", "Polygon", "MultiPoint", "MultiLineString", "MultiPolygon", "GeometryCollection"];

    /// <summary>The two numbers of a point; the name of another geometry in their place, so that the row is told with it.</summary>
    /// <param name="blob">The geometry; empty for none.</param>
    public static (string? First, string? Second) Read(ReadOnlySpan<byte> blob)
    {
        if (blob.IsEmpty)
            return (null, null);
        if (blob.Length < 8 || blob[0] != 'G' || blob[1] != 'P' || (blob[3] & 0b0010_0000) != 0)
            return Told("unreadable geometry");
        if ((blob[3] & 0b0001_0000) != 0)
            return (null, null);

        var envelope = ((blob[3] >> 1) & 7) switch { 0 => 0, 1 => 32, 2 or 3 => 48, 4 => 64, _ => -1 };
        return envelope < 0 || blob.Length < 8 + envelope + 5 ? Told("unreadable geometry") : ReadWkb(blob[(8 + envelope)..]);
    }

    private static (string? First, string? Second) ReadWkb(ReadOnlySpan<byte> wkb)
    {
        var little = wkb[0] == 1;
        var type = little ? BinaryPrimitives.ReadUInt32LittleEndian(wkb[1..]) : BinaryPrimitives.ReadUInt32BigEndian(wkb[1..]);
        // ISO 13249-3: 1000 more for z, 2000 for m, 3000 for both.
        if (type % 1000 != 1 || type / 1000 > 3)
            return Told(type % 1000 < Types.Length && type / 1000 <= 3 ? Types[type % 1000] : "unreadable geometry");
        if (wkb.Length < 21)
            return Told("unreadable geometry");
        var first = little ? BinaryPrimitives.ReadDoubleLittleEndian(wkb[5..]) : BinaryPrimitives.ReadDoubleBigEndian(wkb[5..]);
        var second = little ? BinaryPrimitives.ReadDoubleLittleEndian(wkb[13..]) : BinaryPrimitives.ReadDoubleBigEndian(wkb[13..]);
        // An empty point has NaN for both.
        return double.IsNaN(first) && double.IsNaN(second) ? (null, null) : (Text(first), Text(second));
    }

    private static (string, string) Told(string what) => (what, what);

    private static string Text(double value)
        => Math.Abs(value) < 1e12 ? ((decimal)value).ToString("0.############", CultureInfo.InvariantCulture) : value.ToString("R", CultureInfo.InvariantCulture);
}
