namespace SiteProgress.Core.Bias;

/// <summary>What one number of a cause does to a pile.</summary>
internal enum Effect
{
    East = 1,
    North,
    Turn,
    Forward,
    Starboard,
    Heading,
}

/// <summary>One column of the comparison: an effect on the whole site, on one barge, or on one of its casings.</summary>
internal readonly record struct CauseColumn(Effect Effect, int Barge, int? Casing)
{
    public bool NeedsHeading => Effect >= Effect.Forward;
}

/// <summary>Works out what each column does to each pile, metres east and north for one unit.</summary>
internal sealed class CauseColumns
{
    private readonly ReviewData data;
    private readonly double[] armForward;
    private readonly double[] armStarboard;
    private readonly bool[] knowsArms;

    public CauseColumns(ReviewData data, BiasSite site)
    {
        this.data = data;
        Dictionary<(string, int), CasingArm> arms = site.Arms.ToDictionary(arm => (arm.Barge, arm.Casing));
        armForward = new double[data.Piles.Length];
        armStarboard = new double[data.Piles.Length];
        bool[] known = new bool[data.Barges.Length];
        Array.Fill(known, true);
        for (int pile = 0; pile < data.Piles.Length; pile++)
        {
            CasingArm? arm = data.Piles[pile].Casing is { } casing ? arms.GetValueOrDefault((data.Piles[pile].Barge, casing)) : null;
            (armForward[pile], armStarboard[pile]) = (arm?.ForwardMetres ?? double.NaN, arm?.StarboardMetres ?? double.NaN);
            known[data.BargeOf[pile]] &= arm is not null;
        }

        knowsArms = known;
        if (data.Piles.Length == 0) return;
        (MiddleEast, MiddleNorth) = (data.Piles.Average(pile => pile.EastMetres), data.Piles.Average(pile => pile.NorthMetres));
        TypicalRadius = Math.Max(1, Math.Sqrt(data.Piles.Average(pile => Math.Pow(pile.EastMetres - MiddleEast, 2) + Math.Pow(pile.NorthMetres - MiddleNorth, 2))));
    }

    public double MiddleEast { get; }

    public double MiddleNorth { get; }

    /// <summary>A turn is counted as metres at this distance from the middle.</summary>
    public double TypicalRadius { get; } = 1;

    /// <summary>True when the arms of all casings of a barge are known.</summary>
    public bool KnowsArms(int barge) => knowsArms[barge];

    public (double East, double North) Of(in CauseColumn column, int pile, int barge)
    {
        switch (column.Effect)
        {
            case Effect.East: return (1, 0);
            case Effect.North: return (0, 1);
            case Effect.Turn:
                return (-(data.Piles[pile].NorthMetres - MiddleNorth) / TypicalRadius, (data.Piles[pile].EastMetres - MiddleEast) / TypicalRadius);
        }

        if (column.Barge != barge || (column.Casing is { } casing && data.Piles[pile].Casing != casing)) return (0, 0);
        (double sin, double cos) = (data.Sin[pile], data.Cos[pile]);
        (double forward, double starboard) = column.Effect switch
        {
            Effect.Forward => (1, 0),
            Effect.Starboard => (0, 1),
            // A heading too large by an angle turns the arm clockwise: an arm to starboard goes aft, one forward goes to starboard.
            _ => (-armStarboard[pile], armForward[pile]),
        };
        return ((forward * sin) + (starboard * cos), (forward * cos) - (starboard * sin));
    }
}
