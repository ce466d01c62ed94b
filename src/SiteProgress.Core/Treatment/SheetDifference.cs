namespace SiteProgress.Core.Treatment;

/// <summary>Holds a sheet that was signed against the sheet of now, line by line.</summary>
public static class SheetDifference
{
    /// <summary>Lines that differ: those of the signed sheet in its order, then those it does not have.</summary>
    /// <param name="before">What was signed.</param>
    /// <param name="now">What stands now.</param>
    /// <remarks>A label may stand on a sheet more than once, as for a pile of two installations; the first is held against the first.</remarks>
    public static IReadOnlyList<SheetChange> Between(Sheet before, Sheet now)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(now);
        List<(string Label, int Place, string Value)> then = [.. Placed(before.Lines)];
        Dictionary<(string Label, int Place), string> present = Placed(now.Lines).ToDictionary(line => (line.Label, line.Place), line => line.Value);
        List<SheetChange> changes = [];
        foreach ((string label, int place, string value) in then)
        {
            bool stays = present.Remove((label, place), out string? other);
            if (!stays || other != value) changes.Add(new SheetChange(label, value, stays ? other : null));
        }

        changes.AddRange(Placed(now.Lines).Where(line => present.ContainsKey((line.Label, line.Place))).Select(line => new SheetChange(line.Label, null, line.Value)));
        return changes;
    }

    private static IEnumerable<(string Label, int Place, string Value)> Placed(IReadOnlyList<SheetLine> lines)
    {
        Dictionary<string, int> seen = new(StringComparer.Ordinal);
        foreach (SheetLine line in lines)
        {
            int place = seen.GetValueOrDefault(line.Label);
            seen[line.Label] = place + 1;
            yield return (line.Label, place, line.Value);
        }
    }
}

/// <summary>A line of a sheet that is not as it was signed.</summary>
/// <param name="Label">What the line says.</param>
/// <param name="WhenSigned">Its value when it was signed; null where the signed sheet has no such line.</param>
/// <param name="Now">Its value now; null where the sheet of now has no such line.</param>
public sealed record SheetChange(string Label, string? WhenSigned, string? Now);
