using SiteProgress.Core.Design;
using SiteProgress.Exchange;
using SiteProgress.Jobs.Design;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Design;

/// <summary>Words of doubts about planned piles.</summary>
internal static class DoubtWords
{
    /// <summary>A kind in few words.</summary>
    public static string Of(DoubtKind kind) => kind switch
    {
        DoubtKind.Doubled => "doubled",
        DoubtKind.TooClose => "too close to another",
        DoubtKind.InOtherZone => "in the outline of another zone",
        DoubtKind.InTwoZones => "in the outlines of two zones",
        _ => "in the outline of no zone",
    };

    /// <summary>A doubt as a sentence; lengths in metres.</summary>
    public static string Of(PileDoubt doubt)
    {
        string zones = doubt.LiesIn is { Count: > 0 } codes ? string.Join(" and ", codes) : "";
        return doubt.Kind switch
        {
            DoubtKind.Doubled => $"at the same place as {doubt.Other!.Number}{(Across(doubt) ? $" of zone {doubt.Other.Zone}" : "")}, {Show.Millimetres(doubt.ApartMetres!.Value)} mm apart",
            DoubtKind.TooClose => $"{Show.Coordinate(doubt.ApartMetres!.Value)} m from {doubt.Other!.Number}{(Across(doubt) ? $" of zone {doubt.Other.Zone}" : "")}; at least {Show.Coordinate(doubt.LeastMetres!.Value)} m",
            DoubtKind.InOtherZone => $"lies in the outline of zone {zones}; the schedule says {doubt.Pile.Zone}",
            DoubtKind.InTwoZones => $"lies in the outlines of zones {zones}; the schedule says {doubt.Pile.Zone}",
            _ => $"lies in the outline of no zone; the schedule says {doubt.Pile.Zone}",
        };
    }

    /// <summary>The doubts as a table.</summary>
    public static void Table(TableWriter table, ReadDoubtfulPiles.View view)
    {
        table.Header("Pile No", "Zone", "Doubt", "Other pile", "Zone of the other", "Apart [m]", "At least [m]", "Lies in zones", $"{view.Axes.First} [m]", $"{view.Axes.Second} [m]");
        foreach (PileDoubt doubt in view.Doubtful.Doubts)
        {
            table.Text(doubt.Pile.Number).Text(doubt.Pile.Zone).Text(Of(doubt.Kind)).Text(doubt.Other?.Number).Text(doubt.Other?.Zone).Number(doubt.ApartMetres, 3).Number(doubt.LeastMetres, 3)
                .Text(doubt.LiesIn is { } codes ? string.Join(", ", codes) : null).Number(doubt.Pile.Position.XMetres, 3).Number(doubt.Pile.Position.YMetres, 3).EndRow();
        }
    }

    private static bool Across(PileDoubt doubt) => !string.Equals(doubt.Pile.Zone, doubt.Other!.Zone, StringComparison.OrdinalIgnoreCase);
}
