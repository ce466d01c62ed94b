namespace SiteProgress.DemoGenerator.BiasStudy;

/// <summary>How the errors of a generated site are made. Per axis all have a standard deviation of about 46 mm for one casing.</summary>
public enum ErrorFamily
{
    /// <summary>Each casing errs for itself, normally.</summary>
    Independent,

    /// <summary>The casings of a set-up share its error (correlation 0.8), and an error of heading turns them about the middle one.</summary>
    SharedInSetUp,

    /// <summary>As before, with Student's t of 4 degrees of freedom, and a drift that lasts for about half a day (weather, current).</summary>
    HeavyTailedWithDrift,
}

/// <summary>A bias planted into a generated site. Metres in the barge's axes; casing 0 means every casing of the barge.</summary>
public sealed record PlantedBias(int Barge, int Casing, double Forward, double Starboard, int FirstDay, int LastDay);

/// <summary>One pile of a generated site: metres on a grid, heading in degrees from its north.</summary>
public sealed record StudyPile(
    string Number, string Barge, int Casing, string SetUp, int Day, int Minute, double Heading, double East, double North, double DeviationEast, double DeviationNorth);

/// <summary>
/// A site made for the study of bias: three barges of three casings, so many days, eight set-ups a barge and day, the heading turned
/// round after every anchor field. Written without any of the product's code, so that the product is held against something else.
/// </summary>
public static class StudySite
{
    public const int SetUpsPerDay = 8;
    private const double CasingSpacing = 4.2;
    private const double Forward = 25;
    private static readonly string[] Barges = ["Tern", "Plover", "Curlew"];

    /// <summary>Forward and starboard of each casing from the barge's reference point, metres.</summary>
    public static (string Barge, int Casing, double Forward, double Starboard)[] Arms { get; } =
        [.. Barges.SelectMany(barge => Enumerable.Range(1, 3).Select(casing => (barge, casing, Forward, (casing - 2) * CasingSpacing)))];

    public static IReadOnlyList<StudyPile> Make(ErrorFamily family, int seed, int days = 40, PlantedBias? bias = null, int setUpsPerDay = SetUpsPerDay)
    {
        var piles = new List<StudyPile>(days * setUpsPerDay * 9);
        for (var barge = 0; barge < Barges.Length; barge++)
        {
            var chance = ChanceSource.For(seed, "bias study " + Barges[barge]);
            (double East, double North) drift = (0, 0);
            for (var place = 0; place < days * setUpsPerDay; place++)
            {
                drift = (Drifted(family, drift.East, chance), Drifted(family, drift.North, chance));
                AddSetUp(piles, family, chance, barge, place, place / setUpsPerDay, setUpsPerDay, drift, bias?.Barge == barge ? bias : null);
            }
        }

        return piles;
    }

    private static void AddSetUp(
        List<StudyPile> piles, ErrorFamily family, ChanceSource chance, int barge, int place, int day, int setUpsPerDay, (double East, double North) drift, PlantedBias? bias)
    {
        var heading = 33.0 + ((place / 12 % 2) * 180) + chance.Normal(0, 0.3);
        var (sin, cos) = Math.SinCos(heading * Math.PI / 180);
        var shared = family == ErrorFamily.Independent ? (0.0, 0.0) : (Error(family, chance, 0.040), Error(family, chance, 0.040));
        var turn = family == ErrorFamily.Independent ? 0 : Error(family, chance, 0.20 * Math.PI / 180);
        for (var casing = 1; casing <= 3; casing++)
        {
            var own = family == ErrorFamily.Independent ? 0.046 : 0.020;
            var starboard = (casing - 2) * CasingSpacing;
            var forward = -starboard * turn;
            var aside = 0.0;
            if (bias is not null && day >= bias.FirstDay && day <= bias.LastDay && (bias.Casing == 0 || bias.Casing == casing))
                (forward, aside) = (forward + bias.Forward, bias.Starboard);
            piles.Add(new StudyPile(
                FormattableString.Invariant($"{Barges[barge][0]}-{place:0000}-{casing}"), Barges[barge], casing, FormattableString.Invariant($"S{place:00000}"),
                day, (place % setUpsPerDay * 1440 / setUpsPerDay) + casing, heading,
                (barge * 150) + (place % 60 * 2.1) + (starboard * cos), (place / 60 * 2.1) - (starboard * sin),
                shared.Item1 + drift.East + Error(family, chance, own) + (forward * sin) + (aside * cos),
                shared.Item2 + drift.North + Error(family, chance, own) + (forward * cos) - (aside * sin)));
        }
    }

    private static double Drifted(ErrorFamily family, double drift, ChanceSource chance)
    {
        const double kept = 0.8, spread = 0.012;
        return family == ErrorFamily.HeavyTailedWithDrift ? (kept * drift) + chance.Normal(0, spread * Math.Sqrt(1 - (kept * kept))) : 0;
    }

    /// <summary>An error with the given standard deviation; of the heavy-tailed family Student's t with 4 degrees of freedom.</summary>
    private static double Error(ErrorFamily family, ChanceSource chance, double spread)
    {
        if (family != ErrorFamily.HeavyTailedWithDrift) return chance.Normal(0, spread);
        var squares = 0.0;
        for (var index = 0; index < 4; index++) squares += Math.Pow(chance.Normal(0, 1), 2);
        return spread / Math.Sqrt(2) * chance.Normal(0, 1) / Math.Sqrt(squares / 4);
    }
}
