using SiteProgress.Core.Checks;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Piles;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Piles;

/// <summary>What stands behind a check: its definition, its formula, the numbers of this pile, and where the limit comes from.</summary>
/// <param name="Definition">What is asked.</param>
/// <param name="Formula">How it is computed.</param>
/// <param name="Inputs">The numbers of this pile.</param>
/// <param name="Source">Where limit and practice come from.</param>
internal sealed record CheckExplanation(string Definition, string? Formula, string? Inputs, string Source)
{
    private const string NoLog = "Judged from the log of the samples taken while the casing worked. Without a log it is not judged.";

    /// <summary>The explanation of one check of one pile.</summary>
    public static CheckExplanation Of(CheckResult check, PileRecord record)
    {
        string limits = $"{record.Zone.Limits.Source}; approved by {record.Zone.Limits.Approval}. Zone {record.Zone.Code}, settings in force.";
        string datum = record.Frames.LevelDatum.Name;
        return check.Check switch
        {
            CheckName.Position => new(
                "Distance in plan of the casing axis from the design position, at touch-down and at the end of penetration; the one that takes up most of its limit counts. A fix other than RTK-fixed is not judged.",
                LimitWords.Formula(record), Position(record), limits),
            CheckName.Top => new($"As-built top level against the design top level, either way. Levels are above {datum}.", "|as-built top − design top| ≤ limit", Top(record), limits),
            CheckName.Tip => new(TipDefinition(record.Zone, datum), TipFormula(record.Zone), Tip(record), limits),
            CheckName.Sand => new(
                "Sand in the pile against the design sand for the as-built length. Sand in the pile is the loose volume that left the casing times C, the volume-change factor of its source.",
                "sand in casing × C ÷ (design sand per metre × as-built length) ≥ 1 − share that may be missing", Sand(record), limits),
            CheckName.Verticality => new("Inclination of the casing from the vertical: by the log, as the largest mean of ten seconds between base and top, where it was logged, else as recorded; the largest of the installations the pile stands on.", "inclination ≤ limit", null, limits),
            CheckName.Times => new("Start, end of penetration and end are on the record and follow each other. The value is the time from start to end.", "start ≤ end of penetration ≤ end", null, "Common practice, no source."),
            CheckName.SandAgreement => new(
                "Two accounts of one sand: what left the casing by the log against what the record says, and the recorded charges against their rise on the gauge. The larger difference counts. Asked only where the site sets a limit and there is a log.",
                "|one ÷ the other − 1| ≤ limit", null, "Common practice, no source; the limit is the site's own."),
            CheckName.LeastDiameter => new(
                "Least equivalent diameter over a sliding metre of the pile between base and cut-off. " + NoLog, "√(4 V C ÷ π) for each metre, V the loose sand left in it, ≥ design diameter × (1 − share that may be missing)",
                record.Zone.Limits.DiameterShortRatio is { } share ? $"Design diameter {Show.Level(record.Design.DiameterMetres)} m, of which {Show.Percent(share)} % may be missing." : null, limits),
            _ => new(
                "The pile has no gap between base and cut-off level: no hang-up longer than the limit, and no place with too little sand above the tip, that no later pass went below. A gauge that stood still, a break in the record, or a stretch beyond the range of the gauge for which charges and strokes do not exclude a hang-up leaves it not judged. " + NoLog,
                "longest open hang-up ≤ limit", null, limits),
        };
    }

    private static string? Position(PileRecord record) => record.AsBuilt?.Position is { } position
        ? $"dE {Show.Millimetres(position.Deviation.EastMetres)} mm, dN {Show.Millimetres(position.Deviation.NorthMetres)} mm at {PileWords.Of(position.Moment)}, record {Show.Count(position.Sequence)}; uncertainty (95 %) {Show.Millimetres(position.UncertaintyMetres)} mm{(position.UncertaintyAssumed ? ", the site's own value" : "")}; limit {LimitWords.Of(record)} mm."
        : null;

    private static string? Top(PileRecord record) => record.AsBuilt?.TopLevelMetres is { } top
        ? $"As-built {Show.Level(top)} m, design {Show.Level(record.Design.TopLevelMetres)} m, limit {Show.Level(record.Zone.Limits.TopMetres)} m."
        : null;

    private static string TipDefinition(Zone zone, string datum) => zone.TipRule switch
    {
        TipRule.Level => $"Tip level against the design tip level (above {datum}), and the least length where one is set.",
        TipRule.Criterion => "Penetration rate at the stop against the stop criterion of the zone, and the least length where one is set.",
        _ => $"Tip level (above {datum}) and penetration rate at the stop, both, and the least length where one is set. The part that is not met is shown, else the part not judged.",
    };

    private static string TipFormula(Zone zone) => zone.TipRule switch
    {
        TipRule.Level => "as-built tip − design tip ≤ limit; as-built length ≥ least length",
        TipRule.Criterion => "penetration rate at the stop ≤ stop criterion; as-built length ≥ least length",
        _ => "as-built tip − design tip ≤ limit; rate at the stop ≤ stop criterion; as-built length ≥ least length",
    };

    private static string? Tip(PileRecord record)
    {
        if (record.AsBuilt is not { } built) return null;
        string tip = built.TipLevelMetres is { } level ? $"As-built tip {Show.Level(level)} m" : "No tip level on record";
        string design = record.Design.TipLevelMetres is { } planned ? $", design tip {Show.Level(planned)} m" : ", no design tip level";
        string length = built.LengthMetres is { } metres ? $", length {Show.Level(metres)} m" : "";
        string least = record.Design.LeastLengthMetres is { } shortest ? $", least length {Show.Level(shortest)} m" : "";
        string criterion = record.Zone.StopPenetrationRateMetresPerMinute is { } rate ? $", stop criterion {Show.Level(rate)} m/min" : "";
        return $"{tip}{design}{length}{least}{criterion}.";
    }

    private static string? Sand(PileRecord record) => record.AsBuilt is { Sand: { InCasing: { } used, InPile: { } inPile, Design: { } design } sand, LengthMetres: { } length }
        ? $"In casing {Show.CubicMetres(used)} m³, C {(sand.Source is { } source ? $"{Show.Number(source.VolumeChangeFactor, 3)} ({source.Name})" : "not stated")}, in pile {Show.CubicMetres(inPile)} m³; design {Show.Number(record.Zone.SandPerMetreInPile, 4)} m³/m × {Show.Level(length)} m = {Show.CubicMetres(design)} m³."
        : null;
}
