using System.Globalization;
using System.Text;
using NodaTime;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;
using SiteProgress.Exchange.ControlPoints;

namespace SiteProgress.Jobs.SiteGrid;

/// <summary>Works a proposal out from the history of a site, for looking at it and, under the lock, for adopting it.</summary>
internal static class ProposalWork
{
    /// <summary>Marks of one list at most.</summary>
    public const int MostMarks = 2_000;

    /// <summary>The proposal, or null where the site has no adjustment to be followed by another.</summary>
    public static WorkedOutProposal? WorkOut(SiteHistory history, AdjustmentProposal proposal, Instant now)
    {
        if (history.Settings is not { } settings || history.Adjustments is not [.., { } inForce]) return null;
        using MemoryStream text = new(Encoding.UTF8.GetBytes(proposal.Marks));
        TableReading<SurveyedMark> reading = SurveyedMarkReader.Read(text, ReadingChoices.For(history, now) with { MostRows = MostMarks, MostProblems = 200 });
        CoordinateService current = SiteAdjustments.Service(inForce);
        (int epsg, string wkt, string? refusal) = Definition(history, inForce, proposal.OfferedCrs);
        ProjectedCrs? crs = refusal is null ? ProjectedCrs.FromWkt(epsg, wkt).Crs : null;
        refusal ??= crs is null ? "The projected CRS that was chosen is refused by this version of the software." : WhyNot(proposal, reading);
        WorkedOutProposal nothing = new(settings, inForce.Adjustment.Revision, reading, crs ?? current.Crs, refusal, null, null, null, null, []);
        if (refusal is not null || crs is null || reading.ProblemCount > 0) return nothing;

        SurveyedMark[] given = [.. reading.Rows.Select(row => row.Value)];
        ControlPoint[] marks = Array.ConvertAll(given, mark => Mark(mark, crs, proposal.StandardDeviationMetres));
        List<string> suspicions = Places(given, crs, current.ToGeographic(inForce.Adjustment.SiteOrigin));
        AdjustmentResult fit = AdjustmentFit.Solve(proposal.Kind, marks, proposal.Axes, proposal.FixedScale, inForce.Adjustment.Revision + 1);
        if (!fit.IsFitted) return nothing with { Refusal = fit.Refusal, Suspicions = suspicions };
        if (Contradiction(marks, fit, proposal) is { } contradiction) suspicions.Add(contradiction);
        if (Moved(inForce, wkt, fit.Adjustment!) is { } moved) suspicions.Add(moved);
        bool anyGeographic = given.Any(mark => mark.Surveyed.Frame == Frame.Geographic);
        AdjustmentBody body = new(fit.Adjustment, epsg, wkt, marks, "", anyGeographic ? Array.ConvertAll(given, mark => mark.Surveyed) : null);
        return nothing with
        {
            Body = body,
            Quality = fit.Quality,
            Scale = SiteScale.Judge(fit, crs),
            CoverWarning = ControlPointCover.Look(marks, Design(history)).Warning,
            Suspicions = suspicions,
        };
    }

    /// <summary>The history with the proposal adopted, as a question.</summary>
    public static SiteHistory Suppose(SiteHistory history, AdjustmentBody body) => history.With(
        [new RecordEntry(history.Sequence + 1, body.Kind, Instant.MinValue, "", null, RecordJson.ToBytes(body), ChainHash.BeforeFirst)]);

    private static string? WhyNot(AdjustmentProposal proposal, TableReading<SurveyedMark> reading)
    {
        if (proposal.Kind == AdjustmentKind.Rigid && !(proposal.FixedScale is > 0.5 and < 2))
            return string.Create(CultureInfo.InvariantCulture, $"The fixed scale is {proposal.FixedScale}; expected metres of projected grid for one metre of site grid, near 1.");
        if (!(proposal.StandardDeviationMetres is > 0 and < 1))
            return string.Create(CultureInfo.InvariantCulture, $"The standard deviation is {proposal.StandardDeviationMetres} m; expected metres above 0 and below 1, such as 0.005.");
        return reading is { ProblemCount: 0, Rows.Count: 0 } ? "The list has a header and no control point below it." : null;
    }

    private static (int Epsg, string Wkt, string? Refusal) Definition(SiteHistory history, AdjustmentBody inForce, long? offered)
    {
        if (offered is not { } sequence) return (inForce.EpsgCode, inForce.CrsWkt, null);
        return history.OfferedCrs.FirstOrDefault(one => one.Sequence == sequence) is { } found
            ? (found.Body.EpsgCode, found.Body.CrsWkt, null)
            : (0, "", "The projected CRS that was chosen is not offered on this site.");
    }

    private static ControlPoint Mark(SurveyedMark given, ProjectedCrs crs, double deviation) => new(
        given.Name, given.Site,
        given.Surveyed.Frame == Frame.Geographic
            ? crs.Project(new GeographicCoordinate(given.Surveyed.First, given.Surveyed.Second))
            : new ProjectedCoordinate(given.Surveyed.First, given.Surveyed.Second),
        given.StandardDeviationMetres ?? deviation);

    private static List<string> Places(SurveyedMark[] given, ProjectedCrs crs, GeographicCoordinate site) =>
    [
        .. given.Select(mark => mark.Surveyed.Frame == Frame.Geographic
            ? ControlPointSuspicion.OfPlace(crs, mark.Name, new GeographicCoordinate(mark.Surveyed.First, mark.Surveyed.Second), site)
            : ControlPointSuspicion.OfPlace(crs, mark.Name, new ProjectedCoordinate(mark.Surveyed.First, mark.Surveyed.Second), site)).OfType<string>(),
    ];

    private static string? Contradiction(ControlPoint[] marks, AdjustmentResult fit, AdjustmentProposal proposal)
    {
        if (marks.FirstOrDefault(mark => mark.Name == fit.Quality!.SuspectMark) is not { } suspect) return null;
        AdjustmentResult others = AdjustmentFit.Solve(proposal.Kind, [.. marks.Where(mark => mark != suspect)], proposal.Axes, proposal.FixedScale, 0);
        return others.IsFitted ? ControlPointSuspicion.OfContradiction(suspect, others.Adjustment) : null;
    }

    /// <summary>A site whose grid moves by metres has other marks, another grid or another frame, not a better survey (common practice, no source).</summary>
    private static string? Moved(AdjustmentBody inForce, string wkt, Adjustment proposed)
    {
        if (inForce.CrsWkt != wkt) return null;
        ProjectedCoordinate now = inForce.Adjustment.Forward(inForce.Adjustment.SiteOrigin), then = proposed.Forward(inForce.Adjustment.SiteOrigin);
        double metres = Math.Sqrt(Math.Pow(then.EastingMetres - now.EastingMetres, 2) + Math.Pow(then.NorthingMetres - now.NorthingMetres, 2));
        return metres <= 1 ? null
            : string.Create(CultureInfo.InvariantCulture, $"The middle of the site moves by {metres:0.0} m against revision {inForce.Adjustment.Revision}: are these marks given in the same site grid and frame?");
    }

    private static SiteCoordinate[] Design(SiteHistory history) => [.. SiteDerivation.Derive(history).Piles.Select(pile => pile.Judgement.Pile.Position)];
}
