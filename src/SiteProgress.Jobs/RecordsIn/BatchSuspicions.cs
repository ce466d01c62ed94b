using System.Globalization;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Matching;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>What looks wrong with a batch as a whole, each with its evidence; a person decides.</summary>
internal static class BatchSuspicions
{
    private const double FarMetres = 500;

    public static IReadOnlyList<string> Of(DerivedInstallation[] batch, DerivedSite? site)
    {
        if (site?.Frames is null || batch.Length == 0 || site.Piles.Count == 0) return [];
        List<string> suspicions = [];
        int repeats = batch.Count(one => one.Match.Outcome == MatchOutcome.DuplicateRecord);
        if (repeats > 0) suspicions.Add(Say($"{repeats} of {batch.Length} rows say again what an earlier record said; they will be kept and not counted."));
        AddWrongFrame(batch, site, suspicions);
        return suspicions;
    }

    private static void AddWrongFrame(DerivedInstallation[] batch, DerivedSite site, List<string> suspicions)
    {
        SiteCoordinate centre = new(
            site.Piles.Average(pile => pile.Judgement.Pile.Position.XMetres), site.Piles.Average(pile => pile.Judgement.Pile.Position.YMetres));
        double reach = FarMetres + site.Piles.Max(pile => Distance(pile.Judgement.Pile.Position, centre));
        SiteCoordinate[] far = batch.Select(one => one.Located.Position).OfType<SiteCoordinate>().Where(at => Distance(at, centre) > reach).ToArray();
        if (far.Length == 0) return;
        bool swapped = far.All(at => Distance(new SiteCoordinate(at.YMetres, at.XMetres), centre) <= reach);
        bool projected = far.All(at => Distance(site.Frames!.Current.ToSite(new ProjectedCoordinate(at.XMetres, at.YMetres)), centre) <= reach);
        bool projectedSwapped = far.All(at => Distance(site.Frames!.Current.ToSite(new ProjectedCoordinate(at.YMetres, at.XMetres)), centre) <= reach);
        string looksLike =
            projected ? "They lie on the site when read as eastings and northings of the projected CRS."
            : projectedSwapped ? "They lie on the site when read as northings and eastings of the projected CRS, swapped."
            : swapped ? "They lie on the site when the two axes are swapped."
            : "No other reading of the two numbers puts them on the site.";
        suspicions.Add(Say($"{far.Length} of {batch.Length} positions lie {far.Average(at => Distance(at, centre)) / 1000:0.#} km from the middle of the design. {looksLike}"));
    }

    private static double Distance(SiteCoordinate a, SiteCoordinate b) => Math.Sqrt(Math.Pow(a.XMetres - b.XMetres, 2) + Math.Pow(a.YMetres - b.YMetres, 2));

    private static string Say(FormattableString sentence) => sentence.ToString(CultureInfo.InvariantCulture);
}
