using NodaTime;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Levels;

/// <summary>What is known beside a record when its depths are made levels.</summary>
/// <param name="Water">Water levels; null where the site has none.</param>
/// <param name="Barge">Calibration of the barge in force.</param>
/// <param name="Casing">Calibration of the casing in force.</param>
/// <param name="HeightModel">The datum above the ellipsoid.</param>
/// <param name="Position">Where the casing stands, site grid.</param>
public sealed record LevelContext(
    WaterLevelSeries? Water, Calibration? Barge, Calibration? Casing, HeightModel? HeightModel, SiteCoordinate? Position);

/// <summary>
/// Makes the depths of a record levels. The tip is taken at the end of penetration and the top when the casing left the pile,
/// each with the water level of its own moment. What is required and absent leaves the level out, with the reason.
/// </summary>
public static class DepthsToLevels
{
    /// <summary>The levels; null where the record holds no depths.</summary>
    public static DerivedLevels? Of(Installation recorded, LevelContext context)
    {
        ArgumentNullException.ThrowIfNull(recorded);
        ArgumentNullException.ThrowIfNull(context);
        if (recorded.Depths is not { } depths) return null;
        return new DerivedLevels(
            depths.TipMetres is { } tip ? Level(depths, "tip", tip, recorded.EndOfPenetration, depths.AntennaHeightAtTipMetres, context) : null,
            depths.TopMetres is { } top ? Level(depths, "top", top, recorded.End, depths.AntennaHeightAtTopMetres, context) : null);
    }

    private static DerivedLevel Level(RecordedDepths depths, string what, double depth, Instant? moment, double? antenna, LevelContext context)
    {
        Working working = new();
        switch (depths.Below)
        {
            case DepthBelow.Water:
            {
                double? water = Water(working, moment, what, context.Water);
                working.Input($"depth of the {what} below water", depth, "m", "the record");
                return working.Level("water level minus depth below water", water is { } level ? LevelFormulas.BelowWaterMetres(level, depth) : null);
            }

            case DepthBelow.Deck:
            {
                double? water = Water(working, moment, what, context.Water);
                double? freeboard = FreeboardOf(working, depths, context);
                working.Input($"depth of the {what} below deck", depth, "m", "the record");
                return working.Level(
                    "water level plus freeboard at the casing minus depth below deck",
                    water is { } level && freeboard is { } above ? LevelFormulas.BelowDeckMetres(level, above, depth) : null);
            }

            default:
                return FromAntenna(working, what, depth, antenna, context);
        }
    }

    private static DerivedLevel FromAntenna(Working working, string what, double length, double? antenna, LevelContext context)
    {
        double? height = working.Need($"height of the antenna at the {what}", antenna, "m", "the record", $"The record gives a length from the antenna to the {what}, and no height of the antenna at that moment.");
        double? separation = null;
        if (context.HeightModel is not { } model) working.Lacks("The site has no height model, so a height of the antenna cannot be put on its level datum.");
        else if (context.Position is not { } at) working.Lacks("No position is on the record, so the height model cannot be read there.");
        else
        {
            separation = model.SeparationMetres + (model.AlongFirstAxisRatio * at.XMetres) + (model.AlongSecondAxisRatio * at.YMetres);
            working.Input("level datum above the ellipsoid", separation.Value, "m", model.Source);
        }

        working.Input($"length from antenna to {what}", length, "m", "the record");
        return working.Level(
            "antenna height minus height of the datum minus length from the antenna",
            height is { } above && separation is { } datum ? LevelFormulas.FromAntennaMetres(above, datum, length) : null);
    }

    private static double? Water(Working working, Instant? moment, string what, WaterLevelSeries? water)
    {
        if (moment is not { } at)
        {
            working.Lacks(what == "tip"
                ? "The record gives a depth of the tip and no time of the end of penetration, so the water level of that moment is not known."
                : "The record gives a depth of the top and no end, so the water level of that moment is not known.");
            return null;
        }

        if (water is null)
        {
            working.Lacks("The record gives a depth, and the site has no observed water levels.");
            return null;
        }

        WaterLevel level = water.At(at);
        if (level.LevelMetres is { } metres) working.Input("water level", metres, "m", $"gauge {level.Gauge}, read between {level.Before} and {level.After}; {level.Described!.Evidence}");
        else working.Lacks(level.Missing!);
        return level.LevelMetres;
    }

    private static double? FreeboardOf(Working working, RecordedDepths depths, LevelContext context)
    {
        if (depths.FreeboardMetres is { } stated)
        {
            working.Input("freeboard at the casing", stated, "m", "the record");
            return stated;
        }

        double? deck = working.Need("deck above keel", context.Barge?.DeckAboveKeelMetres, "m", context.Barge?.Evidence, "The record states no freeboard, and no calibration of the barge gives the deck above the keel.");
        double? forward = working.Need("casing forward", context.Casing?.ForwardMetres, "m", context.Casing?.Evidence, "The record states no freeboard, and no calibration gives the casing's offset.");
        double? starboard = working.Need("casing to starboard", context.Casing?.StarboardMetres, "m", context.Casing?.Evidence, "The record states no freeboard, and no calibration gives the casing's offset.");
        Attitude? attitude = AttitudeOf(working, depths, context.Barge);
        if (deck is null || forward is null || starboard is null || attitude is null) return null;
        double freeboard = Freeboard.AtCasingMetres(deck.Value, attitude.Value, forward.Value, starboard.Value);
        working.Input("freeboard at the casing", freeboard, "m", "deck above keel less draught, list and trim at the casing");
        return freeboard;
    }

    private static Attitude? AttitudeOf(Working working, RecordedDepths depths, Calibration? barge)
    {
        double? list = working.Need("list, starboard down", depths.ListDegrees, "deg", "the record", "The record states neither freeboard nor list.");
        if (depths.DraughtMetres is { } draught)
        {
            working.Input("draught at the reference point", draught, "m", "the record");
            double? trim = working.Need("trim, bow down", depths.TrimDegrees, "deg", "the record", "The record states neither freeboard nor trim.");
            return list is { } stated && trim is { } down ? new Attitude(draught, stated, down) : null;
        }

        if (depths.ForeDraughtMetres is not { } fore || depths.AftDraughtMetres is not { } aft)
        {
            working.Lacks("The record states neither freeboard nor draught.");
            return null;
        }

        if (barge is not { ForeMarkMetres: { } foreMark, AftMarkMetres: { } aftMark } || foreMark == aftMark)
        {
            working.Lacks("The record gives readings of the draught marks, and no calibration of the barge says where the marks stand.");
            return null;
        }

        working.Input("fore draught", fore + (barge.ForeMarkZeroMetres ?? 0), "m", "the record, with the mark's zero");
        working.Input("aft draught", aft + (barge.AftMarkZeroMetres ?? 0), "m", "the record, with the mark's zero");
        return list is { } heel
            ? Attitude.FromMarks(fore + (barge.ForeMarkZeroMetres ?? 0), foreMark, aft + (barge.AftMarkZeroMetres ?? 0), aftMark, heel)
            : null;
    }

    /// <summary>What is put together for one level: the inputs as they are found, and the first thing that is missing.</summary>
    private sealed class Working
    {
        private readonly List<LevelInput> _inputs = [];
        private string? _missing;

        public void Input(string name, double value, string unit, string source) => _inputs.Add(new LevelInput(name, value, unit, source));

        public void Lacks(string sentence) => _missing ??= sentence;

        public double? Need(string name, double? value, string unit, string? source, string whyNot)
        {
            if (value is { } known) Input(name, known, unit, source ?? "");
            else Lacks(whyNot);
            return value;
        }

        public DerivedLevel Level(string formula, double? level) => new(level, formula, _inputs, level is null ? _missing : null);
    }
}
