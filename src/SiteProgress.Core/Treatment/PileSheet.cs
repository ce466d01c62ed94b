using NodaTime;
using NodaTime.Text;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Piles;
using static SiteProgress.Core.Treatment.SheetFigures;

namespace SiteProgress.Core.Treatment;

/// <summary>
/// The sheet of one pile that is accepted by: design, what it stands on, as-built figures, every check with its numbers, and
/// the non-conformances it is in. Positions are site-grid metres, levels metres above the site's level datum.
/// </summary>
internal sealed class PileSheet(SiteSettings settings, Func<string, string> spoken)
{
    private static readonly OffsetDateTimePattern Moment = OffsetDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm:ss o<m>");
    private readonly DateTimeZone _zone = DateTimeZoneProviders.Tzdb.GetZoneOrNull(settings.TimeZone) ?? DateTimeZone.Utc;
    private readonly List<SheetLine> _lines = [];

    public static Sheet Of(SiteSettings settings, PileJudgement pile, IEnumerable<NonConformance> nonConformances, int? builtWhileHeld, Func<string, string>? numberThen = null)
    {
        PileSheet sheet = new(settings, numberThen ?? (number => number));
        sheet.Design(pile);
        sheet.StandsOn(pile);
        sheet.AsBuilt(pile);
        foreach (CheckResult check in pile.Checks) sheet.Check(check);
        foreach (NonConformance one in nonConformances) sheet.NonConformance(one);
        if (builtWhileHeld is { } hold) sheet.Say("built while hold point waited", Whole(hold));
        return new Sheet($"{settings.Name} ({settings.Code}): pile {sheet.Spoken(pile.Pile.Number)}", sheet._lines);
    }

    /// <summary>A pile's number as it was when the sheet was made.</summary>
    private string Spoken(string number) => spoken(number);

    private void Say(string label, string value) => _lines.Add(new SheetLine(label, value));

    private void Design(PileJudgement pile)
    {
        PlannedPile planned = pile.Pile;
        Zone? zone = settings.FindZone(planned.Zone);
        Say("zone", zone is null ? planned.Zone : $"{zone.Code}, {zone.Name}");
        Say("design from record", Whole(planned.Sequence));
        Say("design position, site grid", $"{settings.GridAxes.First} {Metres(planned.Position.XMetres)}, {settings.GridAxes.Second} {Metres(planned.Position.YMetres)}");
        Say("design diameter", Metres(planned.DiameterMetres));
        Say($"design top level, {settings.LevelDatum.Name}", Level(planned.TopLevelMetres));
        Say($"design tip level, {settings.LevelDatum.Name}", planned.TipLevelMetres is { } tip ? Level(tip) : "the stop criterion decides");
        if (planned.LeastLengthMetres is { } least) Say("least length", Level(least));
    }

    private void StandsOn(PileJudgement pile)
    {
        foreach (StandingPart part in pile.Standing)
        {
            Installation recorded = part.Installation.Recorded;
            Say("stands on record", Whole(part.Installation.Sequence));
            Say("barge, casing, set-up", $"{recorded.Barge}, {(recorded.Casing is { } casing ? Whole(casing) : None)}, {recorded.SetUp ?? None}");
            Say("start", Time(recorded.Start));
            Say("end of penetration", Time(recorded.EndOfPenetration));
            Say("casing left the pile", Time(recorded.End));
            Say("from level, to level", $"{Level(part.FromLevelMetres)}, {Level(part.ToLevelMetres)}");
            Say("outcome", SheetFigures.Of(recorded.Outcome));
            Say("fix", recorded.Fix is { } fix ? SheetFigures.Of(fix) : None);
            Say("inclination", Degrees(recorded.InclinationDegrees));
        }
    }

    private void AsBuilt(PileJudgement pile)
    {
        if (pile.Position is { } judged)
        {
            Say("as-built position, site grid", $"{settings.GridAxes.First} {Metres(judged.AsBuilt.XMetres)}, {settings.GridAxes.Second} {Metres(judged.AsBuilt.YMetres)}, {(judged.Moment == PositionMoment.TouchDown ? "at touch-down" : "at the end of penetration")}");
            Say("deviation along the axes", $"{Millimetres(judged.Deviation.AlongMetres)}, {Millimetres(judged.Deviation.AcrossMetres)}");
            Say("radial deviation", $"{Millimetres(judged.Deviation.RadialMetres)}, uncertainty (95 %) {Millimetres(judged.UncertaintyMetres)}");
        }
        else
        {
            Say("as-built position", None);
        }

        Say($"as-built top level, {settings.LevelDatum.Name}", Level(pile.AsBuiltTopLevelMetres));
        Say($"as-built tip level, {settings.LevelDatum.Name}", Level(pile.AsBuiltTipLevelMetres));
        Say("as-built length", Level(pile.LengthMetres));
        Say("sand in casing, loose", CubicMetres(pile.Sand?.InCasingStanding));
        Say("sand in pile", CubicMetres(pile.Sand?.InPile));
        Say("design sand in pile", CubicMetres(pile.Sand?.DesignInPile));
        Say("C, volume-change factor", $"{Number(pile.Sand?.VolumeChangeFactor, "0.000", "")}, {pile.Sand?.SandSource ?? None}");
    }

    private void Check(CheckResult check)
    {
        string required = check.Required ? "required" : "not required";
        string near = check.NearLimit ? ", near the limit" : "";
        Say(
            $"check of {SheetFigures.Of(check.Check)}",
            check.Verdict == Verdict.NotJudged
                ? $"not judged ({required}). {check.Reason}"
                : $"{SheetFigures.Of(check.Verdict)}{near}: {Value(check.Value, check.Unit)}{Limit(check)} ({required}). {check.Reason}");
    }

    // The times have an order and no limit.
    private static string Limit(CheckResult check) => check.Check == CheckName.Times ? "" : $", limit {Value(check.Limit, check.Unit)}";

    private void NonConformance(NonConformance one)
    {
        string covers = string.Join(", ", one.Findings.Select(finding => $"{SheetFigures.Of(finding.Check)} of {finding.Account?.InWords() ?? Spoken(finding.Pile)}"));
        Say(
            $"non-conformance {Whole(one.Number)}",
            one.Proposal is { } proposal
                ? $"{SheetFigures.Of(proposal.Disposition)}, proposed in record {Whole(proposal.Sequence)}, designer's reference {proposal.DesignerReference ?? "none"}; {covers}"
                : covers);
    }

    private string Time(Instant? at) => at is { } instant ? Moment.Format(instant.InZone(_zone).ToOffsetDateTime()) : None;
}
