using SiteProgress.Core.Bias;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Piles;

namespace SiteProgress.Jobs.Deviations;

/// <summary>What the pictures of a review are drawn from.</summary>
internal static class ReviewPictures
{
    /// <summary>Share of the newest value in a weighted mean, and half width of its control limits in standard deviations.</summary>
    private const double Weight = 0.2, Width = 3;

    private const int MostArrows = 4000;
    private const double BinMetres = 0.01;
    private const int MostBins = 100;

    public static LevelFigures? Top(BuiltPile[] piles, SiteSettings? settings)
        => LevelFigures.Of(piles.Where(pile => pile.TopDifference is not null && settings?.FindZone(pile.Zone) is not null)
            .Select(pile => new JudgedLevel(pile.TopDifference!.Value, ContractLimits.Top(settings!.FindZone(pile.Zone)!))).ToArray());

    public static LevelFigures? Tip(BuiltPile[] piles, SiteSettings? settings)
        => LevelFigures.Of(piles.Where(pile => pile.TipDifference is not null && settings?.FindZone(pile.Zone) is not null)
            .Select(pile => new JudgedLevel(pile.TipDifference!.Value, ContractLimits.Tip(settings!.FindZone(pile.Zone)!))).ToArray());

    public static InclinationFigures? Inclination(BuiltPile[] piles, SiteSettings? settings)
        => InclinationFigures.Of(piles.Where(pile => pile.Inclination is not null && settings?.FindZone(pile.Zone) is not null)
            .Select(pile => ContractLimits.Inclination(settings!.FindZone(pile.Zone)!, pile.Inclination!.Value)).OfType<LimitAnswer>().ToArray());

    public static IReadOnlyList<RadialBin> Histogram(BuiltPile[] judged)
    {
        if (judged.Length == 0) return [];
        double[] radial = Array.ConvertAll(judged, pile => pile.Deviation!.Value.RadialMetres);
        double bin = BinMetres;
        double far = Math.Min(radial.Max(), 4 * judged.Max(pile => pile.Limit.RadialMetres));
        while (far / bin > MostBins) bin *= 2;
        int bins = Math.Max(1, (int)Math.Floor(far / bin) + 1);
        int[] counts = new int[bins];
        foreach (double one in radial) counts[(int)Math.Min(bins - 1, one / bin)]++;
        return counts.Select((count, index) => new RadialBin(index * bin, index == bins - 1 && radial.Max() > bins * bin ? null : (double?)((index + 1) * bin), count)).ToArray();
    }

    public static RadialBox? Box(BuiltPile[] judged)
    {
        if (judged.Length == 0) return null;
        double[] radial = Array.ConvertAll(judged, pile => pile.Deviation!.Value.RadialMetres);
        return new RadialBox(
            DeviationFigures.Quantile(radial, 0.05), DeviationFigures.Quantile(radial, 0.25), DeviationFigures.Quantile(radial, 0.5),
            DeviationFigures.Quantile(radial, 0.75), DeviationFigures.Quantile(radial, 0.95));
    }

    public static IReadOnlyList<CasingChart> Charts(BuiltPile[] judged, FrameTurn frame)
        => judged.Where(pile => pile.Casing is not null && pile.WorkingDay is not null && pile.EndedAt is not null)
            .GroupBy(pile => (pile.Barge, Casing: pile.Casing!.Value))
            .OrderBy(group => group.Key.Barge, StringComparer.Ordinal).ThenBy(group => group.Key.Casing)
            .Select(group => Chart(group.Key.Barge, group.Key.Casing, group.OrderBy(pile => pile.EndedAt).ThenBy(pile => pile.Number, StringComparer.Ordinal).ToArray(), frame))
            .ToArray();

    private static CasingChart Chart(string barge, int casing, BuiltPile[] piles, FrameTurn frame)
    {
        bool axes = piles.All(pile => pile.HeadingNorth is not null && pile.Heading is not null);
        (double First, double Second)[] values = Array.ConvertAll(piles, pile =>
        {
            PositionDeviation off = pile.Deviation!.Value;
            return axes ? BargeFrame.FromGrid(off.EastMetres, off.NorthMetres, frame.ToGridHeading(pile.Heading, pile.HeadingNorth)!.Value) : (off.EastMetres, off.NorthMetres);
        });
        (double[] alongFirst, double[] alongSecond) = (Array.ConvertAll(values, value => value.First), Array.ConvertAll(values, value => value.Second));
        double[] first = ControlCharts.Ewma(alongFirst, 0, Weight);
        double[] second = ControlCharts.Ewma(alongSecond, 0, Weight);
        double spread = ControlCharts.Spread([.. alongFirst, .. alongSecond]);
        CasingChartDay[] days = Enumerable.Range(0, piles.Length).GroupBy(index => piles[index].WorkingDay!.Value)
            .Select(day => new CasingChartDay(day.Key, first[day.Last()], second[day.Last()], day.Count())).OrderBy(day => day.WorkingDay).ToArray();
        return new CasingChart(barge, casing, axes, ControlCharts.EwmaLimits(0, spread, Weight, Width).Upper, days)
        {
            FirstAutocorrelation = ControlCharts.Autocorrelation(alongFirst),
            SecondAutocorrelation = ControlCharts.Autocorrelation(alongSecond),
        };
    }

    public static VectorPlan Vectors(BuiltPile[] judged)
    {
        if (judged.Length <= MostArrows)
            return new VectorPlan(0, judged.Select(pile => new VectorArrow(pile.DesignX, pile.DesignY, pile.Deviation!.Value.AlongMetres, pile.Deviation.Value.AcrossMetres, 1, pile.Number)).ToArray());
        double width = judged.Max(pile => pile.DesignX) - judged.Min(pile => pile.DesignX), height = judged.Max(pile => pile.DesignY) - judged.Min(pile => pile.DesignY);
        double square = Math.Max(1, Math.Ceiling(Math.Sqrt(Math.Max(width, 1) * Math.Max(height, 1) / MostArrows)));
        return new VectorPlan(square, judged.GroupBy(pile => (Math.Floor(pile.DesignX / square), Math.Floor(pile.DesignY / square)))
            .Select(group => new VectorArrow(
                group.Average(pile => pile.DesignX), group.Average(pile => pile.DesignY), group.Average(pile => pile.Deviation!.Value.AlongMetres),
                group.Average(pile => pile.Deviation!.Value.AcrossMetres), group.Count(), group.Count() == 1 ? group.First().Number : null)).ToArray());
    }
}
