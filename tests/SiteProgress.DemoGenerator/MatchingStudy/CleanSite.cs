using SiteProgress.DemoGenerator.BiasStudy;

namespace SiteProgress.DemoGenerator.MatchingStudy;

/// <summary>A pile of a generated site: metres on its grid.</summary>
public sealed record CleanPile(string Number, double X, double Y);

/// <summary>A record of a generated site: the pile it names, which is the right one, and where it says that the casing stood.</summary>
public sealed record CleanRecord(string Identifier, string Number, string Barge, int Casing, string SetUp, int Day, int Minute, double X, double Y);

/// <summary>
/// Sites on which nothing is wrong: every record names the pile it was built for, and only the errors of measuring lie between the
/// two. A pile in fifty was tried twice. Written without any of the product's code, so that each contradiction the product sees
/// there is a false alarm.
/// </summary>
public static class CleanSite
{
    /// <summary>Distance between piles, both ways, metres.</summary>
    public const double SpacingMetres = 2.1;

    private const int SetUpsInARow = 40;

    /// <summary>A site of three barges with 2,880 piles, and its records.</summary>
    public static (IReadOnlyList<CleanPile> Piles, IReadOnlyList<CleanRecord> Records) Make(ErrorFamily family, int seed)
    {
        List<CleanPile> piles = [];
        List<CleanRecord> records = [];
        var chance = ChanceSource.For(seed, "second attempts");
        foreach (var made in StudySite.Make(family, seed))
        {
            var setUp = int.Parse(made.SetUp[1..], System.Globalization.CultureInfo.InvariantCulture);
            // The casings stand two spacings apart, so every second set-up fills the gaps of the one before.
            var column = (setUp % SetUpsInARow / 2 * 6) + (setUp % 2) + ((made.Casing - 1) * 2);
            var (x, y) = ((column + (BargePlace(made.Barge) * 200)) * SpacingMetres, setUp / SetUpsInARow * SpacingMetres);
            piles.Add(new CleanPile(made.Number, x, y));
            records.Add(new CleanRecord(
                $"{made.Number}/1", made.Number, made.Barge, made.Casing, made.Barge + made.SetUp, made.Day, made.Minute, x + made.DeviationEast, y + made.DeviationNorth));
            if (!chance.Chance(0.02)) continue;
            records.Add(new CleanRecord(
                $"{made.Number}/2", made.Number, made.Barge, made.Casing, made.Barge + made.SetUp + "b", made.Day, made.Minute + 60,
                x + chance.Normal(0, 0.046), y + chance.Normal(0, 0.046)));
        }

        return (piles, records);
    }

    private static int BargePlace(string barge) => Array.IndexOf(["Tern", "Plover", "Curlew"], barge);
}
