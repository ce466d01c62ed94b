using SiteProgress.Core.Design;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;
using SiteProgress.Jobs.Design;

namespace SiteProgress.Web.Shell;

/// <summary>Words of designs and their revisions.</summary>
public static class DesignWords
{
    /// <summary>Kinds of change in the order in which they are shown, with the words of addresses and pages.</summary>
    public static IReadOnlyList<(DesignChangeKind Kind, string InAddress, string Word)> Kinds { get; } =
    [
        (DesignChangeKind.Added, "added", "added"), (DesignChangeKind.Deleted, "taken-out", "taken out"), (DesignChangeKind.Moved, "moved", "moved"),
        (DesignChangeKind.Renumbered, "renumbered", "renumbered"), (DesignChangeKind.Changed, "changed", "changed otherwise"),
    ];

    /// <summary>A kind of change.</summary>
    public static string Of(DesignChangeKind kind) => Kinds.First(one => one.Kind == kind).Word;

    /// <summary>The kind an address names; null where it names none.</summary>
    public static DesignChangeKind? Kind(string? inAddress)
    {
        foreach ((DesignChangeKind kind, string word, _) in Kinds)
        {
            if (word == inAddress) return kind;
        }

        return null;
    }

    /// <summary>What a schedule says of piles it does not name.</summary>
    public static string Of(DesignScope scope) => scope switch
    {
        DesignScope.Zones => "whole design of its zones",
        DesignScope.Site => "whole design of the site",
        _ => "adds and changes",
    };

    /// <summary>What is to become of a built pile whose design was changed.</summary>
    public static string Of(DesignChangeAnswer answer) => answer == DesignChangeAnswer.KeepAsBuilt ? "keep as built" : "hold against the new design";

    /// <summary>A value of a planned pile.</summary>
    public static string Of(DesignField field) => field switch
    {
        DesignField.Zone => "zone",
        DesignField.Diameter => "diameter",
        DesignField.TopLevel => "top level",
        DesignField.TipLevel => "tip level",
        DesignField.LeastLength => "least length",
        _ => "remark",
    };

    /// <summary>A value that differs, with its unit.</summary>
    public static string Of(FieldChange change)
    {
        ArgumentNullException.ThrowIfNull(change);
        return change.Field is DesignField.Zone or DesignField.Remark
            ? $"{Of(change.Field)} {Text(change.TextWas)} → {Text(change.TextIs)}"
            : $"{Of(change.Field)} {Metres(change.Was)} → {Metres(change.Is)} m";
    }

    /// <summary>The table of a comparison.</summary>
    public static void Table(TableWriter table, DesignComparison comparison, DesignChangeKind? only)
    {
        ArgumentNullException.ThrowIfNull(table);
        ArgumentNullException.ThrowIfNull(comparison);
        (string first, string second) = (comparison.Axes.First, comparison.Axes.Second);
        table.Header(
            "Change", "Pile No", "Pile No before", "Zone", $"{first} [m]", $"{second} [m]", $"{first} before [m]", $"{second} before [m]",
            "dE [mm]", "dN [mm]", "Moved by [mm]", "Other changes", "Built");
        foreach (DesignChangeLine line in comparison.Difference.Lines.Where(line => only is null || line.Kind == only))
        {
            table.Text(Of(line.Kind)).Text(line.After?.Number).Text(line.Before?.Number).Text((line.After ?? line.Before)!.Zone)
                .Number(line.After?.Position.XMetres, 3).Number(line.After?.Position.YMetres, 3).Number(line.Before?.Position.XMetres, 3).Number(line.Before?.Position.YMetres, 3)
                .Number(line.Shift?.EastMetres * 1000, 0).Number(line.Shift?.NorthMetres * 1000, 0).Number(line.Shift?.RadialMetres * 1000, 0)
                .Text(string.Join("; ", line.Fields.Select(Of))).Text(comparison.IsBuilt(line) ? "yes" : "no").EndRow();
        }
    }

    private static string Text(string? text) => string.IsNullOrEmpty(text) ? "none" : text;

    private static string Metres(double? metres) => metres is { } value ? Show.Level(value) : "none";
}
