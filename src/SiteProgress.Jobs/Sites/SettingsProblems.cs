using System.Globalization;
using System.Text.RegularExpressions;
using NodaTime;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Piles;

namespace SiteProgress.Jobs.Sites;

/// <summary>What is missing or impossible in the settings of a site, a sentence each.</summary>
internal static partial class SettingsProblems
{
    public static IReadOnlyList<string> Of(SiteSettings settings)
    {
        List<string> problems = [];
        Expect(problems, settings.Code is not null && CodePattern().IsMatch(settings.Code), "code: small letters, digits and hyphens, 3 to 40 of them.");
        Expect(problems, !string.IsNullOrWhiteSpace(settings.Name), "name: a name for people.");
        Expect(problems, settings.TimeZone is not null && DateTimeZoneProviders.Tzdb.GetZoneOrNull(settings.TimeZone) is not null, $"timeZone: an IANA time zone, not '{settings.TimeZone}'.");
        Expect(problems, settings.LevelDatum is { Name.Length: > 0 }, "levelDatum: the name of the level datum.");
        Expect(problems, settings.GridAxes is { First.Length: > 0, Second.Length: > 0 }, "gridAxes: names of both axes.");
        Expect(problems, settings.PileNumberCharacters is { Length: > 0 }, "pileNumberCharacters: the characters allowed in a pile number.");
        Expect(problems, settings.DefaultPositionUncertaintyMetres > 0, "defaultPositionUncertaintyMetres: above 0.");
        Expect(problems, settings.LeastBiasMetres is null or (> 0 and < 10), "leastBiasMetres: above 0, in metres, or left out.");
        Expect(problems, settings.Shifts is not null && settings.SandSources is not null && settings.Barges is not null, "shifts, sandSources and barges: lists, which may be empty.");
        Expect(problems, settings.Zones is { Count: > 0 }, "zones: at least one.");
        Expect(problems, Above(settings.SandAgreement?.PileRatio, settings.SandAgreement?.WeekRatio), "sandAgreement: pileRatio and weekRatio above 0 (0.05 for 5 %), or left out.");
        AddLogConstants(problems, "logConstants", settings.LogConstants);
        foreach (Barge barge in settings.Barges ?? []) AddLogConstants(problems, $"barge '{barge.Name}': logConstants", barge.LogConstants);
        foreach (Zone zone in settings.Zones ?? []) AddZone(problems, zone, settings);
        return problems;
    }

    private static void AddZone(List<string> problems, Zone zone, SiteSettings settings)
    {
        string name = string.Create(CultureInfo.InvariantCulture, $"zone '{zone.Code}'");
        Expect(problems, !string.IsNullOrWhiteSpace(zone.Code), "A zone has no code.");
        Expect(problems, zone.SpacingMetres > 0, $"{name}: spacingMetres above 0.");
        Expect(problems, zone.Pattern != Pattern.Rectangular || zone.SecondSpacingMetres > 0, $"{name}: secondSpacingMetres, as its pattern is rectangular.");
        Expect(problems, zone.DesignDiameterMetres > 0, $"{name}: designDiameterMetres above 0.");
        Expect(problems, zone.TipRule == TipRule.Criterion || zone.TipLevelMetres is not null, $"{name}: tipLevelMetres, as its tip rule needs a level.");
        Expect(problems, zone.TipRule == TipRule.Level || zone.StopPenetrationRateMetresPerMinute > 0, $"{name}: stopPenetrationRateMetresPerMinute, as its tip rule needs a stop criterion.");
        Expect(problems, zone.SandPerMetreInPile > 0, $"{name}: sandPerMetreInPile above 0.");
        AddLimits(problems, name, zone);
        AddLogConstants(problems, $"{name}: logConstants", zone.LogConstants);
        Expect(problems, zone.RequiredChecks is not null, $"{name}: requiredChecks, which may be empty.");
        Expect(problems, zone.RequiredChecks is null || zone.RequiredChecks.All(CheckNames.IsOfPiles), $"{name}: requiredChecks name checks of piles; sandAccount is asked of the sand account.");
        Expect(problems, zone.Outline is not null, $"{name}: outline, which may be empty.");
        Expect(problems, zone.SandSource is not null && settings.SandSources is not null && settings.FindSandSource(zone.SandSource) is not null, $"{name}: sandSource is not among the site's sand sources.");
    }

    /// <summary>Numbers that nobody reads, or below zero, are mistakes in writing: the settings name them.</summary>
    private static void AddLogConstants(List<string> problems, string name, IReadOnlyDictionary<string, double>? set)
    {
        string[] unknown = [.. LogConstants.Unknown(set)];
        Expect(problems, unknown.Length == 0, $"{name}: {string.Join(", ", unknown)} is no number by which logs are read; the page Site settings lists them.");
        Expect(problems, set is null || set.Values.All(value => double.IsFinite(value) && value >= 0), $"{name}: numbers of 0 or more.");
    }

    private static void AddLimits(List<string> problems, string name, Zone zone)
    {
        Expect(problems, zone.Limits is { TopMetres: > 0, Approval.Length: > 0, Source.Length: > 0 }, $"{name}: limits with topMetres, approval and source.");
        if (zone.Limits is not { } limits) return;
        bool ofPosition = limits.RadialMetres is not null || limits.RadialDiameterRatio is not null || (limits.AlongMetres is not null && limits.AcrossMetres is not null);
        Expect(problems, ofPosition, $"{name}: limits with radialMetres, or radialDiameterRatio, or both alongMetres and acrossMetres.");
        Expect(problems, Above(limits.RadialMetres, limits.RadialDiameterRatio, limits.AlongMetres, limits.AcrossMetres, limits.InclinationDegrees), $"{name}: limits above 0, or left out.");
        Expect(problems, Share(limits.DiameterShortRatio) && Share(limits.MetreSandShortRatio), $"{name}: limits diameterShortRatio and metreSandShortRatio from 0 to below 1, or left out.");
        Expect(problems, limits.GapMetres is null or >= 0, $"{name}: limit gapMetres of 0 or more, or left out.");
        Alerts alerts = zone.Alerts ?? new();
        Expect(problems, Above(zone.AlertRadialMetres, alerts.RadialDiameterRatio, alerts.AlongMetres, alerts.AcrossMetres, alerts.TopMetres, alerts.TipShortMetres, alerts.InclinationDegrees), $"{name}: alerts above 0, or left out.");
        Expect(problems, Tighter(zone.AlertRadialMetres, limits.RadialMetres) && Tighter(alerts.RadialDiameterRatio, limits.RadialDiameterRatio) && Tighter(alerts.AlongMetres, limits.AlongMetres)
            && Tighter(alerts.AcrossMetres, limits.AcrossMetres) && Tighter(alerts.TopMetres, limits.TopMetres) && Tighter(alerts.TipShortMetres, limits.TipShortMetres) && Tighter(alerts.InclinationDegrees, limits.InclinationDegrees),
            $"{name}: each alert at most its limit; an alert beyond the limit warns of nothing.");
    }

    private static bool Above(params IEnumerable<double?> numbers) => numbers.All(number => number is null or > 0);

    private static bool Share(double? ratio) => ratio is null or (>= 0 and < 1);

    private static bool Tighter(double? alert, double? limit) => alert is null || limit is null || alert <= limit;

    private static void Expect(List<string> problems, bool holds, string otherwise)
    {
        if (!holds) problems.Add(otherwise);
    }

    [GeneratedRegex("^[a-z0-9][a-z0-9-]{1,38}[a-z0-9]$")]
    private static partial Regex CodePattern();
}
