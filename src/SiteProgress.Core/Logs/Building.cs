namespace SiteProgress.Core.Logs;

/// <summary>The building of a pile in a log: its turning points from the base on, and the sand at each.</summary>
internal sealed class Building
{
    private Building(List<TurningPoint> turns, int baseTurn)
    {
        Turns = turns;
        BaseTurn = baseTurn;
        for (int turn = baseTurn; turn < turns.Count; turn++)
        {
            if (!turns[turn].IsTop) Bottoms.Add(turn);
        }

        BottomLevels = new double[Bottoms.Count];
        BottomSpread = new double[Bottoms.Count];
        Left = new double[Bottoms.Count + 1];
        LeftSpread = new double[Bottoms.Count];
        Charged = new double[Bottoms.Count + 1];
    }

    public List<TurningPoint> Turns { get; }

    /// <summary>Place of the end of penetration among the turns.</summary>
    public int BaseTurn { get; }

    /// <summary>Places of the bottoms from the base on.</summary>
    public List<int> Bottoms { get; } = [];

    public double[] BottomLevels { get; }

    public double[] BottomSpread { get; }

    /// <summary>Sand left at each bottom and at the end, metres of casing.</summary>
    public double[] Left { get; }

    public double[] LeftSpread { get; }

    /// <summary>Charged since the bottom before (at the last place: in the pull-out), loose cubic metres.</summary>
    public double[] Charged { get; }

    public double SandStoppedLevel { get; private set; }

    public TurningPoint Base => Turns[BaseTurn];

    public TurningPoint LastBottom => Turns[Bottoms[^1]];

    /// <summary>The turn after a bottom: the top of its withdrawal; null where the log ends at the bottom.</summary>
    public TurningPoint? TopAfter(int bottom) => Bottoms[bottom] + 1 < Turns.Count ? Turns[Bottoms[bottom] + 1] : null;

    /// <summary>The building, or null where the log shows no base.</summary>
    public static Building? Of(CleanLog log, List<TurningPoint> turns, LogConstants constants)
    {
        double deepest = double.PositiveInfinity;
        foreach (TurningPoint turn in turns)
        {
            if (!turn.IsTop) deepest = Math.Min(deepest, turn.LevelMetres);
        }

        int baseTurn = turns.FindIndex(turn => !turn.IsTop && turn.LevelMetres <= deepest + constants.BaseBandMetres);
        if (baseTurn < 0) return null;
        Building building = new(turns, baseTurn);
        for (int place = 0; place < building.Bottoms.Count; place++)
        {
            TurningPoint turn = turns[building.Bottoms[place]];
            (building.BottomLevels[place], building.BottomSpread[place]) = (turn.LevelMetres, turn.SpreadMetres);
        }

        return building;
    }

    /// <summary>Takes the sand at every bottom and at the end from the account.</summary>
    public void TakeSand(CleanLog log, SandBalance balance)
    {
        for (int place = 0; place < Bottoms.Count; place++)
            (Left[place], LeftSpread[place]) = balance.At(Turns[Bottoms[place]]);
        (Left[^1], _) = balance.AtEnd();
        foreach (Charge charge in balance.Charges)
        {
            int place = 0;
            while (place < Bottoms.Count && Turns[Bottoms[place]].Index < charge.Index) place++;
            Charged[place] += charge.CubicMetres;
        }

        SandStoppedLevel = Stopped(log, balance);
    }

    private double Stopped(CleanLog log, SandBalance balance)
    {
        double near = 0.1 + (3 * log.SandNoise);
        int from = LastBottom.To;
        for (int index = from; index < log.Count; index++)
        {
            if (balance.Left[index] >= Left[^1] - near) return log.Tip[index];
        }

        return LastBottom.LevelMetres;
    }
}
