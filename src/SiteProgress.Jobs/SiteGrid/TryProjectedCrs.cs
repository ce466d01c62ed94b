using System.Globalization;
using Npgsql;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.SiteGrid;

/// <summary>Looks at a projected CRS, by its EPSG code or by its definition, and says how the site would stand in it or why it is refused. Records nothing.</summary>
public sealed class TryProjectedCrs(NpgsqlDataSource store, SiteHistories histories)
{
    /// <summary>Longest definition, characters.</summary>
    public static int MostCharacters => 20_000;

    /// <summary>Looks at a definition.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="definition">An EPSG code, or well-known text.</param>
    /// <param name="cancellation">Stops the work.</param>
    [Needs(Right.See)]
    public async Task<CrsTrial> RunAsync(Permit permit, string definition, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        ArgumentNullException.ThrowIfNull(definition);
        CrsTrial trial = await MakeAsync(store, definition, cancellation);
        SiteHistory history = await histories.ReadAsync(permit.Site, cancellation);
        IReadOnlyList<OfferedCrs> offered = history.OfferedCrs;
        return trial.Crs is { } crs && history.Adjustments is [.., { } inForce] ? Place(trial, crs, SiteAdjustments.Service(inForce)) with { Offered = offered } : trial with { Offered = offered };
    }

    internal static async Task<CrsTrial> MakeAsync(NpgsqlDataSource store, string definition, CancellationToken cancellation)
    {
        string text = definition.Trim();
        if (text.Length == 0) return CrsTrial.Refused("Give an EPSG code, such as 25832, or paste a definition as well-known text.");
        if (text.Length > MostCharacters) return CrsTrial.Refused($"The definition is longer than {MostCharacters} characters; a projected CRS alone is shorter.");
        string digits = text.StartsWith("EPSG:", StringComparison.OrdinalIgnoreCase) ? text[5..].Trim() : text;
        if (!digits.All(char.IsAsciiDigit))
        {
            ProjectedCrsResult pasted = ProjectedCrs.FromWkt(0, text);
            return pasted.IsMade ? new CrsTrial(pasted.Crs, 0, text, null) : CrsTrial.Refused(pasted.Refusal);
        }

        if (!int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out int code)) return CrsTrial.Refused($"\"{digits}\" is not an EPSG code.");
        await using NpgsqlCommand command = store.CreateCommand("select srtext from public.spatial_ref_sys where auth_name = 'EPSG' and auth_srid = $1");
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = code });
        if (await command.ExecuteScalarAsync(cancellation) is not string wkt) return CrsTrial.Refused($"There is no EPSG code {code} in the store's table of coordinate reference systems.");
        ProjectedCrsResult stored = ProjectedCrs.FromWkt(code, wkt);
        return stored.IsMade ? new CrsTrial(stored.Crs, code, wkt, null) : CrsTrial.Refused(stored.Refusal);
    }

    /// <summary>How the middle of the site's marks reads in a system on the same datum.</summary>
    internal static CrsTrial Place(CrsTrial trial, ProjectedCrs crs, CoordinateService current)
    {
        if (crs.DatumName != current.Crs.DatumName && crs.GeographicName != current.Crs.GeographicName)
        {
            return trial with
            {
                Caution = $"It is on another datum ({crs.DatumName}) than the site's system ({current.Crs.DatumName}). No shift is made unasked: control points for it must be surveyed on its own datum.",
            };
        }

        GeographicCoordinate middle = current.ToGeographic(current.Adjustment.SiteOrigin);
        ProjectedCoordinate there = crs.Project(middle);
        double outside = crs.AreaOfUse?.DistanceOutsideMetres(middle) ?? 0;
        return trial with
        {
            Middle = double.IsFinite(there.EastingMetres) ? there : null,
            AtMiddle = double.IsFinite(there.EastingMetres) ? GridDistortion.At(crs, middle) : null,
            Caution = !double.IsFinite(there.EastingMetres) ? "The site cannot be projected with it."
                : outside > 0 ? string.Create(CultureInfo.InvariantCulture, $"The site lies {outside / 1000:0.0} km outside the area in which it may be used.") : null,
        };
    }
}

/// <summary>A projected CRS as tried.</summary>
/// <param name="Crs">The system; null when refused.</param>
/// <param name="Code">Its EPSG code; 0 where it was pasted.</param>
/// <param name="Wkt">Its definition.</param>
/// <param name="Refusal">Why it is refused, in words for a surveyor.</param>
public sealed record CrsTrial(ProjectedCrs? Crs, int Code, string Wkt, string? Refusal)
{
    /// <summary>Middle of the site's marks in it; null on another datum.</summary>
    public ProjectedCoordinate? Middle { get; init; }

    /// <summary>Grid convergence and scale there.</summary>
    public GridDistortion? AtMiddle { get; init; }

    /// <summary>What stands against using it here although it can be computed.</summary>
    public string? Caution { get; init; }

    /// <summary>Systems offered on this site so far.</summary>
    public IReadOnlyList<OfferedCrs> Offered { get; init; } = [];

    internal static CrsTrial Refused(string reason) => new(null, 0, "", reason);
}
