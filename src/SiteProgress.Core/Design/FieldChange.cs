using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Design;

/// <summary>A value of a planned pile beside its number and place.</summary>
public enum DesignField
{
    /// <summary>Zone.</summary>
    Zone = 1,

    /// <summary>Design diameter, metres.</summary>
    Diameter = 2,

    /// <summary>Design top level, metres above the site's level datum.</summary>
    TopLevel = 3,

    /// <summary>Design tip level, metres above the site's level datum.</summary>
    TipLevel = 4,

    /// <summary>Least length, metres.</summary>
    LeastLength = 5,

    /// <summary>The designer's remark.</summary>
    Remark = 6,
}

/// <summary>A value that differs. Numbers are metres; texts are of zone and remark.</summary>
/// <param name="Field">Which value.</param>
/// <param name="Was">The number before; null where there was none.</param>
/// <param name="Is">The number now; null where there is none.</param>
/// <param name="TextWas">The text before.</param>
/// <param name="TextIs">The text now.</param>
public sealed record FieldChange(DesignField Field, double? Was, double? Is, string? TextWas = null, string? TextIs = null)
{
    // A tenth of a millimetre: what a file with levels to the millimetre can say differently on purpose.
    private const double LeastMetres = 0.0001;

    /// <summary>What differs between two rows of one pile.</summary>
    public static IReadOnlyList<FieldChange> Between(PlannedPile was, PlannedPile now)
    {
        ArgumentNullException.ThrowIfNull(was);
        ArgumentNullException.ThrowIfNull(now);
        List<FieldChange> changes = [];
        Texts(changes, DesignField.Zone, was.Zone, now.Zone, StringComparison.OrdinalIgnoreCase);
        Numbers(changes, DesignField.Diameter, was.DiameterMetres, now.DiameterMetres);
        Numbers(changes, DesignField.TopLevel, was.TopLevelMetres, now.TopLevelMetres);
        Numbers(changes, DesignField.TipLevel, was.TipLevelMetres, now.TipLevelMetres);
        Numbers(changes, DesignField.LeastLength, was.LeastLengthMetres, now.LeastLengthMetres);
        Texts(changes, DesignField.Remark, was.Remark?.Text ?? "", now.Remark?.Text ?? "", StringComparison.Ordinal);
        return changes;
    }

    private static void Numbers(List<FieldChange> changes, DesignField field, double? was, double? now)
    {
        bool same = was is { } before && now is { } after ? Math.Abs(before - after) <= LeastMetres : was is null && now is null;
        if (!same) changes.Add(new FieldChange(field, was, now));
    }

    private static void Texts(List<FieldChange> changes, DesignField field, string was, string now, StringComparison rule)
    {
        if (!string.Equals(was.Trim(), now.Trim(), rule)) changes.Add(new FieldChange(field, null, null, was, now));
    }
}
