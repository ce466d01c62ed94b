using System.Buffers;
using System.Text;
using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Jobs.Map;

/// <summary>
/// The piles of a site as the map wants them: one array a column, so that a hundred thousand piles are a dozen arrays and no
/// object per pile.
/// </summary>
internal sealed class MapPileColumns
{
    /// <summary>Stands in the zone and barge columns where there is none, and where the site has more names than fit.</summary>
    public static readonly byte None8 = byte.MaxValue;

    /// <summary>Stands in the day column where nothing is built.</summary>
    public static readonly ushort None16 = ushort.MaxValue;

    private readonly Dictionary<string, byte> zones = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, byte> barges = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<LocalDate, ushort> days = [];
    private readonly ArrayBufferWriter<byte> numbers = new();

    public List<double> Latitude { get; } = [];

    public List<double> Longitude { get; } = [];

    public List<float> DeviationEast { get; } = [];

    public List<float> DeviationNorth { get; } = [];

    public List<float> DesignDiameter { get; } = [];

    public List<float> BuiltDiameter { get; } = [];

    public List<uint> NumberOffset { get; } = [0];

    public List<ushort> Day { get; } = [];

    public List<byte> State { get; } = [];

    public List<byte> Zone { get; } = [];

    public List<byte> Barge { get; } = [];

    /// <summary>Places of built piles whose design was changed afterwards, nothing being decided.</summary>
    public List<int> DesignChanged { get; } = [];

    /// <summary>Piles that wait for a hold point: place and number of the hold point.</summary>
    public List<int[]> Waiting { get; } = [];

    public ReadOnlyMemory<byte> Numbers => numbers.WrittenMemory;

    public int Count => Latitude.Count;

    public IReadOnlyList<string> ZoneNames { get; }

    public IReadOnlyList<string> BargeNames { get; }

    public IReadOnlyList<LocalDate> Days { get; }

    /// <summary>Begins the columns with the names their numbers count.</summary>
    /// <param name="zoneNames">Zones of the site.</param>
    /// <param name="bargeNames">Barges of the site.</param>
    /// <param name="workingDays">Working days on which a pile was completed, ascending.</param>
    public MapPileColumns(IEnumerable<string> zoneNames, IEnumerable<string> bargeNames, IEnumerable<LocalDate> workingDays)
    {
        ZoneNames = Count8(zoneNames, zones);
        BargeNames = Count8(bargeNames, barges);
        Days = workingDays.Distinct().Order().Take(None16).ToArray();
        for (int index = 0; index < Days.Count; index++) days[Days[index]] = (ushort)index;
    }

    /// <summary>Adds a pile.</summary>
    /// <param name="number">Pile number.</param>
    /// <param name="latitude">Latitude of the design position, degrees.</param>
    /// <param name="longitude">Longitude of the design position, degrees.</param>
    public MapPileColumns Pile(string number, double latitude, double longitude)
    {
        Latitude.Add(latitude);
        Longitude.Add(longitude);
        long bytes = Encoding.UTF8.GetBytes(number, numbers);
        NumberOffset.Add(NumberOffset[^1] + (uint)bytes);
        return this;
    }

    /// <summary>Says of the pile added last what the design wants.</summary>
    public MapPileColumns Planned(string zone, PileState state, double diameterMetres)
    {
        Zone.Add(zones.GetValueOrDefault(zone, None8));
        State.Add((byte)state);
        DesignDiameter.Add((float)diameterMetres);
        return this;
    }

    /// <summary>Says of the pile added last what was built.</summary>
    /// <param name="eastMetres">dE, metres; null without a recorded position.</param>
    /// <param name="northMetres">dN, metres.</param>
    /// <param name="diameterMetres">Equivalent diameter, metres; null where it is not known.</param>
    /// <param name="day">Working day of completion; null where nothing stands.</param>
    /// <param name="barge">Barge that completed it.</param>
    public void Built(double? eastMetres, double? northMetres, double? diameterMetres, LocalDate? day, string? barge)
    {
        DeviationEast.Add((float)(eastMetres * 1000 ?? double.NaN));
        DeviationNorth.Add((float)(northMetres * 1000 ?? double.NaN));
        BuiltDiameter.Add((float)(diameterMetres ?? double.NaN));
        Day.Add(day is { } built ? days.GetValueOrDefault(built, None16) : None16);
        Barge.Add(barge is null ? None8 : barges.GetValueOrDefault(barge, None8));
    }

    private static string[] Count8(IEnumerable<string> names, Dictionary<string, byte> counted)
    {
        string[] fitting = names.Distinct(StringComparer.OrdinalIgnoreCase).Take(None8).ToArray();
        for (int index = 0; index < fitting.Length; index++) counted[fitting[index]] = (byte)index;
        return fitting;
    }
}
