using System.Globalization;
using NodaTime;

namespace SiteProgress.Exchange.TextTables;

/// <summary>What the title of a column of times says beside its name: "UTC", "local", "UTC+9", "dd/mm/yyyy hh:mm".</summary>
/// <param name="Offset">Offset of the times; null where they are site time or nothing is said.</param>
/// <param name="Order">Order of day and month; null where nothing is said.</param>
/// <param name="IsKnown">True where the words are understood.</param>
internal readonly record struct WrittenZone(Offset? Offset, DayMonthOrder? Order, bool IsKnown)
{
    /// <summary>Reads what stands in the place of a unit.</summary>
    /// <param name="words">The words.</param>
    public static WrittenZone Of(string words)
    {
        var text = words.Trim().ToLowerInvariant().Replace('\u2212', '-');
        if (text.StartsWith("dd", StringComparison.Ordinal)) return new WrittenZone(null, DayMonthOrder.DayFirst, true);
        if (text.StartsWith("mm/dd", StringComparison.Ordinal)) return new WrittenZone(null, DayMonthOrder.MonthFirst, true);
        if (text.StartsWith("yyyy", StringComparison.Ordinal) || text.StartsWith("hh", StringComparison.Ordinal)) return new WrittenZone(null, null, true);
        if (text is "local" or "local time" or "lt" or "site time" or "site") return new WrittenZone(null, null, true);
        if (text is "utc" or "gmt" or "z" or "zulu") return new WrittenZone(NodaTime.Offset.Zero, null, true);
        return Hours(text) is { } offset ? new WrittenZone(offset, null, true) : default;
    }

    private static Offset? Hours(string text)
    {
        var sign = text.IndexOfAny(['+', '-']);
        if (sign < 0 || text[..sign].Trim() is not ("" or "utc" or "gmt"))
            return null;
        var parts = text[(sign + 1)..].Trim().Split(':');
        if (parts.Length > 2 || !int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var hours) || hours > 14)
            return null;
        var minutes = 0;
        if (parts.Length == 2 && (!int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out minutes) || minutes > 59))
            return null;
        return NodaTime.Offset.FromSeconds((text[sign] == '-' ? -1 : 1) * ((hours * 3600) + (minutes * 60)));
    }
}
