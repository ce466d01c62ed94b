using System.Globalization;
using SiteProgress.Core.Coordinates.Definitions;

namespace SiteProgress.Core.Coordinates;

/// <summary>What comparing every projected system of the store's table with PROJ found, for one projection method.</summary>
/// <param name="Method">The method, as definitions name it.</param>
/// <param name="Supported">Systems that agree within 0.1 mm forward and 0.01 mm there and back over their area of use.</param>
/// <param name="Refused">Systems that are refused.</param>
/// <param name="ForwardMillimetres">Largest difference forward among the supported; null where none is supported.</param>
/// <param name="RoundTripMillimetres">Largest difference there and back among them.</param>
public sealed record ComparedMethod(string Method, int Supported, int Refused, double? ForwardMillimetres, double? RoundTripMillimetres)
{
    private static readonly Lazy<ComparedMethod[]> Rows = new(() => [.. EmbeddedTable.Rows("compared-methods.csv", 5).Select(Read)]);

    /// <summary>All methods that the table names, those with most systems first. The measurement `coordinates` writes the table.</summary>
    public static IReadOnlyList<ComparedMethod> All => Rows.Value;

    private static ComparedMethod Read(string[] cells) => new(cells[0], Whole(cells[1]), Whole(cells[2]), Number(cells[3]), Number(cells[4]));

    private static int Whole(string text) => int.Parse(text, NumberStyles.None, CultureInfo.InvariantCulture);

    private static double? Number(string text) => text.Length == 0 ? null : double.Parse(text, CultureInfo.InvariantCulture);
}
