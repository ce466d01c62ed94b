using System.Buffers.Binary;
using System.Text;
using System.Text.Json;

namespace SiteProgress.Jobs.Tests.Map;

/// <summary>Reads pile data of the map as src/SiteProgress.Web/client/map/README.md describes them, from that text alone.</summary>
internal sealed class DecodedPiles
{
    private readonly byte[] bytes;
    private readonly int count;
    private readonly int columns;
    private readonly int numberBytes;

    public DecodedPiles(byte[] answer)
    {
        bytes = answer;
        Magic = Encoding.ASCII.GetString(bytes, 0, 4);
        count = (int)BinaryPrimitives.ReadUInt32LittleEndian(bytes.AsSpan(4));
        PreambleBytes = (int)BinaryPrimitives.ReadUInt32LittleEndian(bytes.AsSpan(8));
        numberBytes = (int)BinaryPrimitives.ReadUInt32LittleEndian(bytes.AsSpan(12));
        columns = 16 + PreambleBytes;
        Preamble = JsonDocument.Parse(bytes.AsMemory(16, PreambleBytes)).RootElement;
    }

    public string Magic { get; }

    public int Count => count;

    public int PreambleBytes { get; }

    public JsonElement Preamble { get; }

    /// <summary>What the text says the whole answer must measure.</summary>
    public int LengthByDescription => 16 + PreambleBytes + (16 * count) + (16 * count) + (4 * (count + 1)) + (2 * count) + (3 * count) + numberBytes;

    public string Number(int pile)
        => Encoding.UTF8.GetString(bytes, NumbersAt + Offset(pile), Offset(pile + 1) - Offset(pile));

    public double Latitude(int pile) => BinaryPrimitives.ReadDoubleLittleEndian(bytes.AsSpan(columns + (8 * pile)));

    public double Longitude(int pile) => BinaryPrimitives.ReadDoubleLittleEndian(bytes.AsSpan(columns + (8 * (count + pile))));

    public float DeviationEast(int pile) => Single(0, pile);

    public float DeviationNorth(int pile) => Single(1, pile);

    public float DesignDiameter(int pile) => Single(2, pile);

    public float BuiltDiameter(int pile) => Single(3, pile);

    public int Day(int pile) => BinaryPrimitives.ReadUInt16LittleEndian(bytes.AsSpan(DaysAt + (2 * pile)));

    public int State(int pile) => bytes[DaysAt + (2 * count) + pile];

    public int Zone(int pile) => bytes[DaysAt + (3 * count) + pile];

    public int Barge(int pile) => bytes[DaysAt + (4 * count) + pile];

    private int DaysAt => columns + (16 * count) + (16 * count) + (4 * (count + 1));

    private int NumbersAt => DaysAt + (5 * count);

    private int Offset(int pile) => (int)BinaryPrimitives.ReadUInt32LittleEndian(bytes.AsSpan(columns + (32 * count) + (4 * pile)));

    private float Single(int column, int pile) => BinaryPrimitives.ReadSingleLittleEndian(bytes.AsSpan(columns + (16 * count) + (4 * ((column * count) + pile))));
}
