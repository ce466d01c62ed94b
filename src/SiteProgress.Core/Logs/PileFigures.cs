namespace SiteProgress.Core.Logs;

/// <summary>The final pile in figures: segments, metres from the base, least diameter.</summary>
internal sealed record PileFigures(IReadOnlyList<PileSegment> Segments, IReadOnlyList<MetreOfPile> Metres, LeastDiameter? Least)
{
    public static PileFigures Of(CleanLog log, SandBalance balance, Building building, LogContext context)
    {
        double area = context.CasingArea;
        PileProfile profile = new(building.Bottoms.Count + 1);
        profile.Build(building.BottomLevels, building.Left, building.SandStoppedLevel, context.Constants);
        PileSegment[] segments = new PileSegment[profile.Count];
        for (int index = 0; index < segments.Length; index++)
        {
            (double from, double to, double sand) = profile[index];
            segments[index] = new PileSegment(from, to, sand * area, index < profile.Count - 1 || !profile.EndsInPullOut);
        }

        double bottom = building.BottomLevels.Min();
        double cutOff = context.CutOffLevelMetres ?? building.LastBottom.LevelMetres;
        if (context.VolumeChangeFactor is not { } factor || cutOff - bottom < context.Constants.SmallestStrokeMetres) return new PileFigures(segments, [], null);
        return new PileFigures(segments, MetresOf(profile, bottom, cutOff, area * factor), LeastOf(log, balance, building, context, cutOff, factor));
    }

    private static List<MetreOfPile> MetresOf(PileProfile profile, double bottom, double cutOff, double inPileFactor)
    {
        List<MetreOfPile> metres = [];
        for (double from = bottom; from < cutOff - 0.05; from++)
        {
            double to = Math.Min(from + 1, cutOff);
            double inPile = Math.Max(0, profile.Between(from, to)) * inPileFactor;
            metres.Add(new MetreOfPile(from, to, inPile, Math.Sqrt(4 * inPile / (Math.PI * (to - from)))));
        }

        return metres;
    }

    private static LeastDiameter LeastOf(CleanLog log, SandBalance balance, Building building, LogContext context, double cutOff, double factor)
    {
        double area = context.CasingArea;
        double[] chargeSpread = new double[building.Bottoms.Count];
        for (int place = 1; place < chargeSpread.Length; place++) chargeSpread[place] = context.Constants.ChargeRatio * building.Charged[place] / area;
        BuildingFigures figures = new()
        {
            Bottoms = building.BottomLevels,
            BottomSpread = building.BottomSpread,
            Left = building.Left,
            LeftSpread = building.LeftSpread,
            ChargeSpread = chargeSpread,
            SandStopped = building.SandStoppedLevel,
            CutOff = cutOff,
        };
        (double least, double low, double high, double from) = DiameterInterval.Of(figures, context.Constants);
        double length = Math.Min(1, cutOff - building.BottomLevels[0]);
        double Diameter(double sand) => Math.Sqrt(4 * Math.Max(0, sand) * area * factor / (Math.PI * length));
        return new LeastDiameter(Diameter(least), Diameter(low), Diameter(high), from, from + length);
    }
}
