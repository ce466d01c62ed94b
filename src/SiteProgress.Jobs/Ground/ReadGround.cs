using NodaTime.Text;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Ground;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Ground;

/// <summary>How the ground was improved: replacement ratio as built, heave of the seabed, blow counts before and after.</summary>
public sealed class ReadGround(SiteHistories histories)
{
    /// <summary>Reads it.</summary>
    /// <returns>The ground; null before the site has settings.</returns>
    [Needs(Right.See)]
    public async Task<GroundView?> RunAsync(Permit permit, GroundRequest request, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        ArgumentNullException.ThrowIfNull(request);
        DerivedSite site = await histories.ReadDerivedAsync(permit.Site, cancellation);
        if (site.History.Settings is not { } settings) return null;
        GroundPile[] piles = [.. site.Piles.Select(Pile)];
        ReplacementReview replacement = ReplacementReview.Of(piles, [.. settings.Zones.Select(Design)], request.ShareRatio);
        IReadOnlyList<SeabedSurvey> surveys = SeabedSurveys.Of(site);
        return new GroundView(
            site.History.Sequence, settings.TimeZone, settings, replacement, [.. settings.Zones.Where(zone => zone.Corners().Count < 3).Select(zone => zone.Code)],
            Around(request.Around, replacement, piles), [.. surveys.Select(Name)],
            new HeaveOfZones(site, settings, replacement).Between(surveys, request), new BlowsOfZones(site, settings, replacement).Of(request));
    }

    /// <summary>The key of a survey in addresses.</summary>
    internal static SurveyName Name(SeabedSurvey survey)
        => new($"{LocalDatePattern.Iso.Format(survey.SurveyedOn)} {survey.Name}", survey.Name, survey.SurveyedOn, survey.Soundings.Count);

    private static GroundDesign Design(Zone zone) => new(zone.Code, zone.Corners(), zone.ReplacementRatio, Math.Max(zone.SpacingMetres, zone.SecondSpacingMetres ?? 0));

    private static GroundPile Pile(DerivedPile pile)
    {
        var judged = pile.Judgement;
        bool known = judged.Position is { Comparable: true };
        return new GroundPile(
            judged.Pile.Number, judged.Pile.Zone, known ? judged.Position!.AsBuilt : judged.Pile.Position, judged.Standing.Count > 0, known,
            judged is { Sand.InPile: { } sand, LengthMetres: > 0 and { } length } ? sand / length : null);
    }

    private static GroundAround? Around(string? number, ReplacementReview replacement, GroundPile[] piles)
    {
        PileReplacement? drawn = replacement.Piles.FirstOrDefault(one => string.Equals(one.Pile.Number, number, StringComparison.OrdinalIgnoreCase))
            ?? replacement.Spots.Select(spot => spot.Weakest).FirstOrDefault()
            ?? replacement.Piles.Where(one => one.RatioAround is not null).MinBy(one => one.RatioAround);
        if (drawn is null) return null;
        double reach = 3 * Math.Sqrt(Math.Max(drawn.Area.AreaSquareMetres, 0.01));
        return new GroundAround(
            drawn,
            [.. replacement.Piles.Where(one => one != drawn && one.Pile.At.DistanceToMetres(drawn.Pile.At) <= reach)],
            [.. piles.Where(pile => !pile.Stands && pile.At.DistanceToMetres(drawn.Pile.At) <= reach).Select(pile => pile.At)]);
    }
}
