using NodaTime;
using NodaTime.Text;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;

namespace SiteProgress.Exchange.HandOver;

/// <summary>
/// The as-built schedule: a row for every pile of the design with what was planned, what was built, what was decided and who
/// signed. Site-grid and projected metres, levels metres above the datum named in the head, deviations millimetres.
/// </summary>
public static class AsBuiltTable
{
    /// <summary>Writes head and rows, piles by number.</summary>
    /// <param name="table">Where to.</param>
    /// <param name="site">The site as derived from its records.</param>
    /// <param name="names">Names of those who recorded, by the recorder in the records.</param>
    public static void Write(TableWriter table, DerivedSite site, IReadOnlyDictionary<string, string> names)
    {
        ArgumentNullException.ThrowIfNull(table);
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(names);
        SiteSettings settings = site.History.Settings ?? throw new ArgumentException("The site has no settings yet.", nameof(site));
        DateTimeZone zone = DateTimeZoneProviders.Tzdb[settings.TimeZone];
        Head(table, settings, site.Frames?.Current.Crs.Name ?? $"EPSG:{settings.ProjectedCrs}");
        foreach (DerivedPile pile in site.Piles)
        {
            Design(table, pile, settings);
            AsBuilt(table, pile, zone);
            Decided(table, pile, zone, names);
            table.EndRow();
        }
    }

    private static void Head(TableWriter table, SiteSettings settings, string crs)
    {
        string first = settings.GridAxes.First, second = settings.GridAxes.Second, datum = settings.LevelDatum.Name;
        table.Header(
            "Pile No", "Zone", "State", "Design record",
            $"Design {first}, site grid [m]", $"Design {second}, site grid [m]", $"Design easting, {crs} [m]", $"Design northing, {crs} [m]",
            "Design diameter [m]", $"Design top level, {datum} [m]", $"Design tip level, {datum} [m]",
            "Stands on records", "Barge", "Casing", "Set-up", "Working day", "Shift", "Casing left the pile",
            $"As-built {first}, site grid [m]", $"As-built {second}, site grid [m]", $"As-built easting, {crs} [m]", $"As-built northing, {crs} [m]",
            "Position taken at", "dE [mm]", "dN [mm]", "Radial deviation [mm]", "Position uncertainty 95 % [mm]",
            $"As-built top level, {datum} [m]", $"As-built tip level, {datum} [m]", "As-built length [m]",
            "Sand in casing [m3]", "Sand in pile [m3]", "Design sand in pile [m3]", "Mean equivalent diameter [m]",
            "Checks met", "Checks not met", "Required checks not judged",
            "Non-conformance", "Lot", "Replaces", "Replaced by", "Accepted at", "Accepted by", "Acceptance record", "Signed sheet SHA-256", "Re-opened because");
    }

    private static void Design(TableWriter table, DerivedPile pile, SiteSettings settings)
    {
        PlannedPile planned = pile.Judgement.Pile;
        table.Text(planned.Number).Text(settings.FindZone(planned.Zone)?.Code ?? planned.Zone).Text(NameWords.Of(pile.Treatment.State)).Whole(planned.Sequence)
            .Number(planned.Position.XMetres, 3).Number(planned.Position.YMetres, 3)
            .Number(pile.Projected.EastingMetres, 3).Number(pile.Projected.NorthingMetres, 3)
            .Number(planned.DiameterMetres, 3).Number(planned.TopLevelMetres, 3).Number(planned.TipLevelMetres, 3);
    }

    private static void AsBuilt(TableWriter table, DerivedPile pile, DateTimeZone zone)
    {
        PileJudgement judged = pile.Judgement;
        LocatedInstallation? last = judged.Standing.Count == 0 ? null : judged.Standing[^1].Installation;
        JudgedPosition? position = judged.Position;
        ProjectedCoordinate? there = pile.AsBuilt;
        table.Text(string.Join(' ', judged.Standing.Select(part => Whole(part.Installation.Sequence))))
            .Text(last?.Recorded.Barge).Whole(last?.Recorded.Casing).Text(last?.Recorded.SetUp)
            .Text(pile.Completed is { } completed ? LocalDatePattern.Iso.Format(completed.Day) : null).Text(pile.Completed?.Shift).Time(last?.Recorded.End, zone)
            .Number(position?.AsBuilt.XMetres, 3).Number(position?.AsBuilt.YMetres, 3).Number(there?.EastingMetres, 3).Number(there?.NorthingMetres, 3)
            .Text(position is null ? null : NameWords.Of(position.Moment))
            .Number(position?.Deviation.EastMetres * 1000, 1).Number(position?.Deviation.NorthMetres * 1000, 1)
            .Number(position?.Deviation.RadialMetres * 1000, 1).Number(position?.UncertaintyMetres * 1000, 0)
            .Number(judged.AsBuiltTopLevelMetres, 3).Number(judged.AsBuiltTipLevelMetres, 3).Number(judged.LengthMetres, 3)
            .Number(judged.Sand?.InCasingStanding, 2).Number(judged.Sand?.InPile, 2).Number(judged.Sand?.DesignInPile, 2).Number(judged.MeanDiameterMetres, 3)
            .Text(Checks(judged, check => check.Verdict == Verdict.Met))
            .Text(Checks(judged, check => check.Verdict == Verdict.NotMet))
            .Text(Checks(judged, check => check is { Verdict: Verdict.NotJudged, Required: true }));
    }

    private static void Decided(TableWriter table, DerivedPile pile, DateTimeZone zone, IReadOnlyDictionary<string, string> names)
    {
        PileTreatment treated = pile.Treatment;
        PileAcceptance? accepted = treated.Acceptance;
        table.Whole(treated.NonConformance).Whole(treated.Lot).Text(treated.Replaces).Text(treated.ReplacedBy)
            .Time(accepted?.At, zone).Text(accepted is null ? null : names.GetValueOrDefault(accepted.By, accepted.By))
            .Whole(accepted?.Sequence).Text(accepted?.Sheet).Text(treated.Reopened);
    }

    private static string Checks(PileJudgement judged, Func<CheckResult, bool> wanted)
        => string.Join("; ", judged.Checks.Where(wanted).Select(check => NameWords.Of(check.Check)));

    private static string Whole(long number) => number.ToString(System.Globalization.CultureInfo.InvariantCulture);
}
