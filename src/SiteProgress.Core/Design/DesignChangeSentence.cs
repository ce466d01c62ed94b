using System.Globalization;

namespace SiteProgress.Core.Design;

/// <summary>A change of a built pile's design as one line. Decisions keep the line, so its words are for good.</summary>
public static class DesignChangeSentence
{
    /// <summary>The line: built by which revision, changed by which, and what.</summary>
    /// <param name="change">What changed.</param>
    /// <param name="builtBy">Number of the revision in force when it was built.</param>
    /// <param name="changedBy">Number of the revision in force now, or that took it out.</param>
    public static string Of(DesignChangeLine change, int builtBy, int changedBy)
    {
        ArgumentNullException.ThrowIfNull(change);
        return string.Create(CultureInfo.InvariantCulture, $"built by revision {builtBy}; revision {changedBy}: {string.Join(", ", What(change))}");
    }

    private static IEnumerable<string> What(DesignChangeLine change)
    {
        if (change.Kind == DesignChangeKind.Deleted) yield return "taken out of the design";
        if (change.Shift is { } shift)
            yield return string.Create(CultureInfo.InvariantCulture, $"moved by dE {shift.EastMetres * 1000:0} mm, dN {shift.NorthMetres * 1000:0} mm").Replace('-', '\u2212').Replace("\u22120 mm", "0 mm", StringComparison.Ordinal);
        foreach (FieldChange field in change.Fields.Where(field => field.Field != DesignField.Remark)) yield return What(field);
    }

    private static string What(FieldChange field) => field.Field == DesignField.Zone
        ? $"zone {field.TextWas} to {field.TextIs}"
        : $"{Name(field.Field)} {Metres(field.Was)} to {Metres(field.Is)}";

    private static string Name(DesignField field) => field switch
    {
        DesignField.Diameter => "diameter",
        DesignField.TopLevel => "top level",
        DesignField.TipLevel => "tip level",
        _ => "least length",
    };

    private static string Metres(double? metres)
        => metres is { } value ? value.ToString("0.000", CultureInfo.InvariantCulture).Replace('-', '\u2212') + " m" : "none";
}
