using System.Globalization;

namespace SiteProgress.Core.Coordinates.Definitions;

/// <summary>What the register says about a projected system beyond its formula.</summary>
internal sealed record RegisteredSystem(AreaOfUse Area, CrsAxis? FirstAxis, CrsAxis? SecondAxis);

/// <summary>
/// Areas of use and axes by authority and code, and the systems whose stored definition was found not to agree with the register.
/// Both tables are resources of this assembly; their heads say where they come from.
/// </summary>
internal static class RegisteredSystems
{
    private static readonly Lazy<Dictionary<string, RegisteredSystem>> Systems = new(ReadSystems);
    private static readonly Lazy<Dictionary<string, string>> Refusals = new(ReadRefusals);

    public static RegisteredSystem? Find(string authority, int code) => Systems.Value.GetValueOrDefault(Key(authority, code));

    /// <summary>Why the definition stored under this code must not be used; null when the comparison found nothing against it.</summary>
    public static string? ReasonAgainst(string authority, int code) => Refusals.Value.GetValueOrDefault(Key(authority, code));

    private static string Key(string authority, int code) => string.Create(CultureInfo.InvariantCulture, $"{authority}:{code}");

    private static Dictionary<string, RegisteredSystem> ReadSystems()
    {
        var systems = new Dictionary<string, RegisteredSystem>(StringComparer.Ordinal);
        foreach (var cells in EmbeddedTable.Rows("registered-systems.csv", 7))
        {
            var axes = cells[6].Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(Axis).ToArray();
            systems[$"{cells[0]}:{cells[1]}"] = new(
                new AreaOfUse(Number(cells[2]), Number(cells[3]), Number(cells[4]), Number(cells[5])),
                axes.Length >= 2 ? axes[0] : null, axes.Length >= 2 ? axes[1] : null);
        }

        return systems;
    }

    private static Dictionary<string, string> ReadRefusals() =>
        EmbeddedTable.Rows("refused-systems.csv", 3).ToDictionary(cells => $"{cells[0]}:{cells[1]}", cells => cells[2], StringComparer.Ordinal);

    private static CrsAxis? Axis(string text)
    {
        var parts = text.Split('>');
        return parts[1] switch
        {
            "east" => new(parts[0], AxisDirection.East),
            "north" => new(parts[0], AxisDirection.North),
            "west" => new(parts[0], AxisDirection.West),
            "south" => new(parts[0], AxisDirection.South),
            _ => null,
        };
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
