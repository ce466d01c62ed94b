using SiteProgress.Core.Derivation;
using SiteProgress.Core.Ground;
using SiteProgress.Core.Piles;

namespace SiteProgress.Jobs.Ground;

/// <summary>Heave of each zone between two surveys, beside the sand of the piles built between them.</summary>
internal sealed class HeaveOfZones(DerivedSite site, SiteSettings settings, ReplacementReview replacement)
{
    /// <summary>Compares the surveys asked for, the earliest with the latest where none is asked.</summary>
    /// <returns>The heave; null where there are not two surveys.</returns>
    public HeaveView? Between(IReadOnlyList<SeabedSurvey> surveys, GroundRequest request)
    {
        if (surveys.Count < 2) return null;
        SeabedSurvey before = Find(request.Before) ?? surveys[0];
        SeabedSurvey after = Find(request.After) ?? surveys[^1];
        if (after.SurveyedOn <= before.SurveyedOn)
            return new HeaveView(ReadGround.Name(before), ReadGround.Name(after), [], "The later survey is not of a later day than the earlier one.");
        try
        {
            return new HeaveView(
                ReadGround.Name(before), ReadGround.Name(after),
                [.. settings.Zones.Select(zone => Of(zone, before, after, request.SquareMetres)).Where(zone => zone.Review.Squares.Count > 0)], null);
        }
        catch (ArgumentOutOfRangeException)
        {
            return new HeaveView(ReadGround.Name(before), ReadGround.Name(after), [], $"With such squares a zone would have more than {SeabedHeave.MostSquares} of them; ask for larger ones.");
        }

        SeabedSurvey? Find(string? key) => surveys.FirstOrDefault(survey => string.Equals(ReadGround.Name(survey).Key, key, StringComparison.OrdinalIgnoreCase));
    }

    private ZoneHeave Of(Zone zone, SeabedSurvey before, SeabedSurvey after, double square)
    {
        DerivedPile[] built = [.. site.Piles.Where(pile => pile.Judgement.Pile.Zone == zone.Code && pile.Completed is { } moment && moment.Day > before.SurveyedOn && moment.Day <= after.SurveyedOn)];
        double[] lengths = [.. built.Select(pile => pile.Judgement.LengthMetres).OfType<double>()];
        return new ZoneHeave(
            zone.Code, SeabedHeave.Of(zone.Corners(), before, after, square), built.Length,
            built.Sum(pile => pile.Judgement.Sand?.InPile ?? 0), built.Count(pile => pile.Judgement.Sand?.InPile is null),
            lengths.Length == 0 ? null : lengths.Average(),
            replacement.Zones.FirstOrDefault(one => one.Design.Zone == zone.Code)?.Mean);
    }
}
