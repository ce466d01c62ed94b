using System.Globalization;
using Microsoft.AspNetCore.Http;
using SiteProgress.Core.Coordinates;
using SiteProgress.Exchange;
using SiteProgress.Jobs.SiteGrid;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.SiteGrid;

/// <summary>A proposed adjustment as the form sends it.</summary>
public sealed class ProposalEntry
{
    /// <summary>The list of control points.</summary>
    public string? Marks { get; set; }

    /// <summary>A file that takes the place of the list.</summary>
    public IFormFile? File { get; set; }

    /// <summary>similarity, rigid or affine.</summary>
    public string? Kind { get; set; }

    /// <summary>Scale of a rigid fit.</summary>
    public string? FixedScale { get; set; }

    /// <summary>right or left.</summary>
    public string? Axes { get; set; }

    /// <summary>Standard deviation where a line gives none, metres.</summary>
    public string? Deviation { get; set; }

    /// <summary>Sequence of the record that offers the projected CRS; empty for the one in force.</summary>
    public string? Crs { get; set; }

    /// <summary>Revision that was in force when the person looked.</summary>
    public string? Seen { get; set; }

    /// <summary>"yes" where the person says that the warnings were read.</summary>
    public string? WarningsRead { get; set; }

    /// <summary>Why it is adopted.</summary>
    public string? Reason { get; set; }

    /// <summary>The revision that was seen; 0 where the form does not say.</summary>
    public int SeenRevision => int.TryParse(Seen, NumberStyles.None, CultureInfo.InvariantCulture, out int revision) ? revision : 0;

    /// <summary>What a form begins with: the marks in force as they stand, or as they were observed last.</summary>
    public static ProposalEntry Beginning(SiteGridRead grid, MarksOverTime? observed)
    {
        ArgumentNullException.ThrowIfNull(grid);
        Adjustment inForce = grid.Adopted.Body.Adjustment;
        return new ProposalEntry
        {
            Marks = List(grid, observed),
            Kind = inForce.Kind.ToString().ToLowerInvariant(),
            FixedScale = inForce.Kind == AdjustmentKind.Rigid ? inForce.Scale.ToString("0.########", CultureInfo.InvariantCulture) : "1",
            Axes = inForce.IsLeftHanded ? "left" : "right",
            Deviation = "0.005",
        };
    }

    /// <summary>Puts the text of the file, where one was sent, in the place of the list.</summary>
    /// <returns>Null, or why the file cannot be taken.</returns>
    public async Task<string?> TakeFileAsync(CancellationToken cancellation)
    {
        (string? text, string? problem) = await SmallFile.ReadAsync(File, ProposeAdjustment.MostCharacters, cancellation);
        File = null;
        if (problem is not null) return $"{problem} A list of control points is shorter.";
        Marks = text ?? Marks;
        return null;
    }

    /// <summary>The proposal, or what is wrong with a field.</summary>
    public (AdjustmentProposal? Proposal, string? Problem) Read()
    {
        if (string.IsNullOrWhiteSpace(Marks)) return (null, "The list of control points is empty.");
        if (Marks.Length > ProposeAdjustment.MostCharacters) return (null, $"The list is longer than {ProposeAdjustment.MostCharacters} characters.");
        (double? deviation, string? problem) = PointText.Deviation(Deviation ?? "");
        if (deviation is not { } metres) return (null, problem);
        AdjustmentKind kind = Enum.TryParse(Kind, ignoreCase: true, out AdjustmentKind known) && Enum.IsDefined(known) ? known : AdjustmentKind.Similarity;
        if (kind == AdjustmentKind.Rigid && PointText.MetresOr(FixedScale, 1).Metres is null) return (null, $"\"{FixedScale}\" is not a scale; expected a number near 1, such as 0.99974.");
        return (new AdjustmentProposal(
            Marks, kind, PointText.MetresOr(FixedScale, 1).Metres ?? 1, Axes == "left" ? SiteAxes.LeftHanded : SiteAxes.RightHanded, metres,
            long.TryParse(Crs, NumberStyles.None, CultureInfo.InvariantCulture, out long offered) ? offered : null), null);
    }

    private static string List(SiteGridRead grid, MarksOverTime? observed)
    {
        using StringWriter text = new(CultureInfo.InvariantCulture);
        TableWriter table = new(text);
        table.Header("Name", $"{grid.Settings.GridAxes.First} [m]", $"{grid.Settings.GridAxes.Second} [m]", "Easting [m]", "Northing [m]", "Standard deviation [m]");
        foreach (ControlPoint mark in grid.Adopted.Body.ControlPoints)
        {
            ObservedMark? latest = observed?.Marks.FirstOrDefault(one => one.Adopted.Name == mark.Name)?.Latest;
            ProjectedCoordinate at = latest?.Place ?? mark.Projected;
            table.Text(mark.Name).Number(mark.Site.XMetres, 4).Number(mark.Site.YMetres, 4).Number(at.EastingMetres, 4).Number(at.NorthingMetres, 4)
                .Number(latest?.Body.StandardDeviationMetres ?? mark.StandardDeviationMetres, 4).EndRow();
        }

        return text.ToString().Replace("\r\n", "\n", StringComparison.Ordinal);
    }
}
