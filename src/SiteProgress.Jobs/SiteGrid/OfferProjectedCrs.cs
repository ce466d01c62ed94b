using Npgsql;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.SiteGrid;

/// <summary>Puts a projected CRS at the surveyor's disposal. No position changes by it: the next adjustment may rest on it.</summary>
public sealed class OfferProjectedCrs(NpgsqlDataSource store, SiteRecorder recorder)
{
    /// <summary>Offers a system.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="definition">An EPSG code, or well-known text.</param>
    /// <param name="reason">Why, and where the definition comes from.</param>
    /// <param name="cancellation">Stops the work; nothing is recorded then.</param>
    /// <returns>Null, or why it was not offered.</returns>
    [Needs(Right.ChangeSettings)]
    public async Task<string?> RunAsync(Permit permit, string definition, string reason, CancellationToken cancellation)
    {
        permit.Demand(Right.ChangeSettings);
        ArgumentNullException.ThrowIfNull(definition);
        if (ReasonText.WhyNot(reason, "Why, and where the definition comes from,") is { } why) return why;
        CrsTrial trial = await TryProjectedCrs.MakeAsync(store, definition, cancellation);
        if (trial.Crs is not { } crs) return trial.Refusal;
        string? refusal = null;
        await recorder.AppendAsync(
            permit,
            Right.ChangeSettings,
            history =>
            {
                refusal = WhyNot(history, trial, crs);
                return refusal is null ? [new ProjectedCrsOfferedBody(trial.Code, trial.Wkt, reason.Trim())] : [];
            },
            cancellation);
        return refusal;
    }

    private static string? WhyNot(SiteHistory history, CrsTrial trial, ProjectedCrs crs)
    {
        if (history.OfferedCrs.Any(one => one.Body.CrsWkt == trial.Wkt)) return "This definition is offered already.";
        if (history.Adjustments is not [.., { } inForce]) return null;
        if (inForce.CrsWkt == trial.Wkt) return "This is the system in force.";
        return TryProjectedCrs.Place(trial, crs, SiteAdjustments.Service(inForce)) is { Caution: { } caution, AtMiddle: not null } ? caution : null;
    }
}
