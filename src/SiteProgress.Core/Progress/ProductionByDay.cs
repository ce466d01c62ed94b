using NodaTime;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Progress;

/// <summary>Adds up what was built, by working day, shift, barge, casing and zone.</summary>
public static class ProductionByDay
{
    /// <summary>Production of a site.</summary>
    /// <param name="installations">All installations with their matches, in the same order.</param>
    /// <param name="matches">Their matches.</param>
    /// <param name="piles">Judged piles.</param>
    /// <param name="days">The site's working days.</param>
    /// <returns>One entry for each day, shift, barge, casing and zone with an attempt, in that order. An attempt without an
    /// end time belongs to no day and is left out.</returns>
    public static IReadOnlyList<DayProduction> Of(
        IReadOnlyList<LocatedInstallation> installations,
        IReadOnlyList<InstallationMatch> matches,
        IReadOnlyList<PileJudgement> piles,
        WorkingDays days)
    {
        ArgumentNullException.ThrowIfNull(installations);
        ArgumentNullException.ThrowIfNull(matches);
        ArgumentNullException.ThrowIfNull(days);
        Dictionary<long, (PileJudgement Pile, StandingPart Part)> standing = piles
            .SelectMany(pile => pile.Standing.Select(part => (Pile: pile, Part: part)))
            .ToDictionary(one => one.Part.Installation.Sequence);
        Dictionary<string, string> zones = piles.ToDictionary(one => one.Pile.Number, one => one.Pile.Zone, StringComparer.OrdinalIgnoreCase);
        Dictionary<Key, Sum> sums = [];
        for (int index = 0; index < installations.Count; index++)
        {
            Installation recorded = installations[index].Recorded;
            if (matches[index].Outcome == MatchOutcome.DuplicateRecord || recorded.End is not { } end) continue;
            WorkingMoment moment = days.At(end);
            string zone = matches[index].Adopted is { } adopted ? zones.GetValueOrDefault(adopted, "") : "";
            Key key = new(moment.Day, moment.Shift, recorded.Barge, recorded.Casing ?? 0, zone);
            Sum sum = sums.TryGetValue(key, out Sum? found) ? found : sums[key] = new Sum();
            sum.Attempts++;
            sum.SandInCasing += recorded.SandInCasing ?? 0;
            if (standing.TryGetValue(installations[index].Sequence, out (PileJudgement Pile, StandingPart Part) part)) sum.Add(part.Pile, part.Part);
        }

        return sums
            .OrderBy(one => one.Key.Day).ThenBy(one => one.Key.Shift, StringComparer.Ordinal)
            .ThenBy(one => one.Key.Barge, StringComparer.Ordinal).ThenBy(one => one.Key.Casing)
            .ThenBy(one => one.Key.Zone, StringComparer.Ordinal)
            .Select(one => one.Value.ToProduction(one.Key))
            .ToArray();
    }

    private sealed record Key(LocalDate Day, string Shift, string Barge, int Casing, string Zone);

    private sealed class Sum
    {
        public int Attempts { get; set; }

        public double SandInCasing { get; set; }

        private int Piles { get; set; }

        private int PilesWithFinding { get; set; }

        private double Metres { get; set; }

        private double SandInPile { get; set; }

        public void Add(PileJudgement pile, StandingPart part)
        {
            Metres += part.LengthMetres ?? 0;
            SandInPile += part.Installation.Recorded.SandInCasing * part.ShareRatio * pile.Sand?.VolumeChangeFactor ?? 0;
            if (!ReferenceEquals(pile.Standing[^1], part)) return;
            Piles++;
            if (pile.State == PileState.Finding) PilesWithFinding++;
        }

        public DayProduction ToProduction(Key key) => new(
            key.Day, key.Shift, key.Barge, key.Casing, key.Zone, Attempts, Piles, Metres, SandInCasing, SandInPile, PilesWithFinding);
    }
}
