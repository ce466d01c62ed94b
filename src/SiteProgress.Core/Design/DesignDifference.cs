using SiteProgress.Core.Deviations;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Design;

/// <summary>How a planned pile of one design stands to another design.</summary>
public enum DesignChangeKind
{
    /// <summary>It is planned now and was not before.</summary>
    Added = 1,

    /// <summary>It was planned and is no longer.</summary>
    Deleted = 2,

    /// <summary>The same number at another place.</summary>
    Moved = 3,

    /// <summary>The same place under another number.</summary>
    Renumbered = 4,

    /// <summary>The same number at the same place, with other values.</summary>
    Changed = 5,
}

/// <summary>One planned pile that differs between two designs.</summary>
/// <param name="Kind">How it differs.</param>
/// <param name="Before">As it was; null where it is added.</param>
/// <param name="After">As it is; null where it is deleted.</param>
/// <param name="Shift">By how much it is moved, new minus old place; null where it is not.</param>
/// <param name="Fields">What else differs.</param>
public sealed record DesignChangeLine(
    DesignChangeKind Kind, PlannedPile? Before, PlannedPile? After, PositionDeviation? Shift, IReadOnlyList<FieldChange> Fields)
{
    /// <summary>Its number now; where it is deleted, the one it had.</summary>
    public string Number => (After ?? Before)!.Number;

    /// <summary>True where a pile that was built by the old design no longer stands for the new one: its number and remark alone do not matter.</summary>
    public bool TouchesWork => Kind is DesignChangeKind.Moved or DesignChangeKind.Deleted || Fields.Any(change => change.Field != DesignField.Remark);
}

/// <summary>What differs between two designs, pile by pile.</summary>
/// <param name="Lines">Piles that differ, by number.</param>
/// <param name="Unchanged">How many are the same in both.</param>
/// <param name="Rounded">How many of those have coordinates that differ by no more than <see cref="DesignPairs.SamePlaceMetres"/>.</param>
/// <param name="LargestRoundedMetres">The largest of these differences, metres.</param>
public sealed record DesignDifference(IReadOnlyList<DesignChangeLine> Lines, int Unchanged, int Rounded, double LargestRoundedMetres)
{
    private const double LeastRoundingMetres = 1e-6;

    /// <summary>True where the designs are the same.</summary>
    public bool IsNothing => Lines.Count == 0;

    /// <summary>How many piles differ in this way.</summary>
    public int Count(DesignChangeKind kind) => Lines.Count(line => line.Kind == kind);

    /// <summary>Compares two designs.</summary>
    /// <param name="before">Planned piles of the first, one a number; site grid, metres.</param>
    /// <param name="after">Planned piles of the second.</param>
    /// <param name="rotation">Turn from the site grid to the projected CRS grid, for dE and dN.</param>
    public static DesignDifference Between(IReadOnlyCollection<PlannedPile> before, IReadOnlyCollection<PlannedPile> after, GridRotation rotation)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        List<DesignChangeLine> lines = [];
        (int unchanged, int rounded, double largest) = (0, 0, 0);
        foreach ((PlannedPile? was, PlannedPile? now) in DesignPairs.Of(before, after))
        {
            if (Line(was, now, rotation) is { } line)
            {
                lines.Add(line);
                continue;
            }

            unchanged++;
            double apart = PositionDeviation.Between(was!.Position, now!.Position, rotation).RadialMetres;
            if (apart <= LeastRoundingMetres) continue;
            rounded++;
            largest = Math.Max(largest, apart);
        }

        return new DesignDifference([.. lines.OrderBy(line => line.Number, StringComparer.Ordinal).ThenBy(line => line.Kind)], unchanged, rounded, largest);
    }

    /// <summary>How one pile differs; null where it does not.</summary>
    internal static DesignChangeLine? Line(PlannedPile? was, PlannedPile? now, GridRotation rotation)
    {
        if (was is null) return new DesignChangeLine(DesignChangeKind.Added, null, now, null, []);
        if (now is null) return new DesignChangeLine(DesignChangeKind.Deleted, was, null, null, []);
        PositionDeviation shift = PositionDeviation.Between(was.Position, now.Position, rotation);
        bool moved = !DesignPairs.IsSamePlace(shift.RadialMetres);
        IReadOnlyList<FieldChange> fields = FieldChange.Between(was, now);
        bool renumbered = !string.Equals(was.Number, now.Number, StringComparison.OrdinalIgnoreCase);
        DesignChangeKind? kind = moved ? DesignChangeKind.Moved : renumbered ? DesignChangeKind.Renumbered : fields.Count > 0 ? DesignChangeKind.Changed : null;
        return kind is { } known ? new DesignChangeLine(known, was, now, moved ? shift : null, fields) : null;
    }
}
