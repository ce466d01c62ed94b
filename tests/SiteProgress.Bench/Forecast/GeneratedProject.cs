namespace SiteProgress.Bench.Forecast;

/// <summary>What sets the projects of a family apart.</summary>
/// <param name="Name">Name of the family.</param>
/// <param name="What">What it is, in a sentence.</param>
/// <param name="Barges">Least and most barges.</param>
/// <param name="WorkDays">Least and most working days that the set-ups are cut for.</param>
/// <param name="Wave">Standard deviation of the logarithm of the wave height.</param>
/// <param name="WaveMemoryHours">Hours after which the sea has forgotten two thirds of what it was.</param>
/// <param name="BreakDownsPerDay">Break-downs per barge and day.</param>
/// <param name="BreakDownHours">Mean length of one, hours.</param>
/// <param name="RampShare">Time lost in a barge's first days, as a share of a set-up.</param>
/// <param name="LateSlower">Factor on the time of a set-up in the last half of the work: harder ground the history knows nothing of.</param>
/// <param name="LateRougher">Added to the mean of the logarithm of the wave height in the last half of the work.</param>
internal sealed record Family(
    string Name, string What, (int Least, int Most) Barges, (int Least, int Most) WorkDays, double Wave, double WaveMemoryHours,
    double BreakDownsPerDay, double BreakDownHours, double RampShare, double LateSlower = 1, double LateRougher = 0)
{
    public static IReadOnlyList<Family> All { get; } =
    [
        new("weather", "two or three barges, a sea that stays rough or calm for a day or two, small break-downs, ramp-up", (2, 3), (90, 170), 0.42, 30, 0.25, 1.5, 0.5),
        new("break-downs", "one or two barges, few but long break-downs of days, a milder sea", (1, 2), (90, 170), 0.30, 18, 0.02, 60, 0.5),
        new("small-job", "one barge, a short job of a few weeks, long spells of weather", (1, 1), (60, 100), 0.45, 40, 0.15, 3, 0.4),
        new("history-misleads", "as the first, but the last half lies in harder ground and rougher weather", (2, 3), (90, 170), 0.42, 30, 0.25, 1.5, 0.5, 1.35, 0.12),
    ];
}

/// <summary>
/// A project as it went, worked out hour by hour: an autoregressive sea with a limit, set-ups of scattered length, break-downs,
/// slow first days, work that has to be done again. It shares nothing with the product; above all no block is drawn here.
/// </summary>
internal sealed class GeneratedProject
{
    private const double Limit = 1.5;
    private static readonly DateOnly Begins = new(2025, 3, 3);
    private readonly Random chance;
    private readonly Family family;
    private readonly List<double> sea = [];
    private double seaState;

    public GeneratedProject(Family family, int seed)
    {
        this.family = family;
        chance = new Random(seed);
        int barges = chance.Next(family.Barges.Least, family.Barges.Most + 1);
        Arrivals = [.. Enumerable.Range(0, barges).Select(barge => barge * 7)];
        int days = chance.Next(family.WorkDays.Least, family.WorkDays.Most + 1);
        double hoursOfSetUp = 1.1 + (0.6 * chance.NextDouble());
        // About six hours of ten are workable and not lost to anything else.
        SetUps = (int)(days * barges * 24 * 0.55 / hoursOfSetUp);
        Again = 0.005 + (0.03 * chance.NextDouble());
        Work(hoursOfSetUp, Math.Log(1.15) + (0.1 * Normal()));
    }

    /// <summary>Days after the beginning on which each barge came.</summary>
    public int[] Arrivals { get; }

    /// <summary>Set-ups of the design, without those done again.</summary>
    public int SetUps { get; }

    /// <summary>Chance that a set-up has to be done again.</summary>
    private double Again { get; }

    /// <summary>By barge and day: set-ups finished, and of them those done again.</summary>
    public List<(int SetUps, int Again)>[] Days { get; private set; } = [];

    /// <summary>Day on which the last was finished.</summary>
    public DateOnly Finished { get; private set; }

    public static DateOnly DayAt(int index) => Begins.AddDays(index);

    public static bool IsRest(DateOnly day) => day.DayOfWeek == DayOfWeek.Sunday;

    private void Work(double hoursOfSetUp, double seaMean)
    {
        int open = SetUps, again = 0;
        Days = [.. Arrivals.Select(_ => new List<(int, int)>())];
        double[] clock = new double[Arrivals.Length], broken = new double[Arrivals.Length];
        for (int day = 0; open + again > 0 && day < 2000; day++)
        {
            bool late = open < SetUps / 2;
            for (int hour = 0; hour < 24; hour++) Sea(seaMean + (late ? family.LateRougher : 0));
            for (int barge = 0; barge < Arrivals.Length; barge++)
            {
                int onSite = day - Arrivals[barge];
                if (onSite < 0 || IsRest(DayAt(day)))
                {
                    if (onSite >= 0) Days[barge].Add((0, 0));
                    continue;
                }

                double slow = (1 + (family.RampShare * Math.Exp(-onSite / 7.0))) * (late ? family.LateSlower : 1);
                Days[barge].Add(DayOf(barge, day, hoursOfSetUp * slow, clock, broken, ref open, ref again));
            }

            if (open + again == 0) Finished = DayAt(day);
        }
    }

    private (int SetUps, int Again) DayOf(int barge, int day, double length, double[] clock, double[] broken, ref int open, ref int again)
    {
        int done = 0, doneAgain = 0;
        for (int hour = 0; hour < 24; hour++)
        {
            if (broken[barge] > 0)
            {
                broken[barge]--;
                continue;
            }

            if (chance.NextDouble() < family.BreakDownsPerDay / 24) broken[barge] = -family.BreakDownHours * Math.Log(1 - chance.NextDouble());
            if (sea[(day * 24) + hour] > Limit) continue;
            clock[barge] += 1 / (length * (0.85 + (0.3 * chance.NextDouble())));
            while (clock[barge] >= 1 && open + again > 0)
            {
                clock[barge]--;
                done++;
                if (open == 0 || (again > 0 && chance.NextDouble() < 0.3))
                {
                    again--;
                    doneAgain++;
                }
                else
                {
                    open--;
                    if (chance.NextDouble() < Again) again++;
                }
            }
        }

        return (done, doneAgain);
    }

    private void Sea(double mean)
    {
        double memory = Math.Exp(-1 / family.WaveMemoryHours);
        seaState = (memory * seaState) + (family.Wave * Math.Sqrt(1 - (memory * memory)) * Normal());
        sea.Add(Math.Exp(mean + seaState));
    }

    private double Normal() => Math.Sqrt(-2 * Math.Log(1 - chance.NextDouble())) * Math.Cos(2 * Math.PI * chance.NextDouble());
}
