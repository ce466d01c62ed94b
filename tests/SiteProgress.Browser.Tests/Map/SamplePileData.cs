using System.Text;
using System.Text.Json;

namespace SiteProgress.Browser.Tests.Map;

/// <summary>One pile as the map receives it; NaN and null where something is not known.</summary>
internal sealed record SamplePile(
    string Number, double Latitude, double Longitude, byte State, int Zone = 0, int? Barge = null, int? Day = null,
    float DeviationEast = float.NaN, float DeviationNorth = float.NaN, float DesignDiameter = 1.25f, float BuiltDiameter = float.NaN);

/// <summary>Writes the bytes that client/map/README.md describes, from that text alone, so that the text is tested too.</summary>
internal static class SamplePileData
{
    public static byte[] Write(object preamble, IReadOnlyList<SamplePile> piles)
    {
        var numbers = piles.Select(pile => Encoding.UTF8.GetBytes(pile.Number)).ToList();
        var json = JsonSerializer.SerializeToUtf8Bytes(preamble);
        var padded = Enumerable.Repeat((byte)' ', (json.Length + 7) / 8 * 8).ToArray();
        json.CopyTo(padded, 0);

        using var stream = new MemoryStream();
        using var writer = new BinaryWriter(stream);
        writer.Write("SPM1"u8);
        writer.Write((uint)piles.Count);
        writer.Write((uint)padded.Length);
        writer.Write((uint)numbers.Sum(number => number.Length));
        writer.Write(padded);
        foreach (var pile in piles) writer.Write(pile.Latitude);
        foreach (var pile in piles) writer.Write(pile.Longitude);
        foreach (var pile in piles) writer.Write(pile.DeviationEast);
        foreach (var pile in piles) writer.Write(pile.DeviationNorth);
        foreach (var pile in piles) writer.Write(pile.DesignDiameter);
        foreach (var pile in piles) writer.Write(pile.BuiltDiameter);
        var offset = 0u;
        writer.Write(offset);
        foreach (var number in numbers) writer.Write(offset += (uint)number.Length);
        foreach (var pile in piles) writer.Write((ushort)(pile.Day ?? 65535));
        foreach (var pile in piles) writer.Write(pile.State);
        foreach (var pile in piles) writer.Write((byte)pile.Zone);
        foreach (var pile in piles) writer.Write((byte)(pile.Barge ?? 255));
        foreach (var number in numbers) writer.Write(number);
        writer.Flush();
        return stream.ToArray();
    }
}
