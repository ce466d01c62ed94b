namespace SiteProgress.DemoGenerator.Work;

/// <summary>Waves and water level at the site: both invented, both smooth enough to plan by.</summary>
public sealed class Sea
{
    /// <summary>Largest significant wave height in which the barges work, metres.</summary>
    public const double WorkingLimit = 1.5;

    private readonly List<double> _waves = [];

    public Sea(int seed)
    {
        // Log wave height follows an autoregressive course by the hour about a mean that falls from March to May, so that
        // storms last a day or two and calm spells a little longer.
        var chance = ChanceSource.For(seed, "waves");
        var state = -0.6;
        for (var hour = 0; SiteTime.FirstMorning.AddHours(hour) < SiteTime.LastMorning.AddDays(2); hour++)
        {
            state = (0.972 * state) + chance.Normal(0, 0.40 * Math.Sqrt(1 - (0.972 * 0.972)) * 1.15);
            var season = Math.Log(1.52) - (0.30 * hour / (24.0 * 89));
            _waves.Add(Math.Exp(season + state));
        }

        // The night in which the clocks change is worked: a calm day is part of the story the demo tells.
        var calm = (int)(SiteTime.ClocksChange - SiteTime.FirstMorning).TotalHours;
        for (var hour = calm - 16; hour < calm + 6; hour++) _waves[hour] = Math.Min(_waves[hour], 0.9);
    }

    /// <summary>Significant wave height, metres.</summary>
    public double WaveHeight(DateTime utc) => _waves[Math.Clamp((int)(utc - SiteTime.FirstMorning).TotalHours, 0, _waves.Count - 1)];

    /// <summary>The next moment from which work is possible for at least three hours; at the latest the end of the period.</summary>
    public DateTime NextWorkable(DateTime utc)
    {
        var from = utc;
        while (from < SiteTime.LastMorning && !Calm(from, 3)) from = from.AddMinutes(60 - from.Minute);
        return from;
    }

    public bool Calm(DateTime from, int hours)
    {
        for (var hour = 0; hour <= hours; hour++)
            if (WaveHeight(from.AddHours(hour)) > WorkingLimit) return false;
        return true;
    }

    /// <summary>
    /// Water level above the site's level datum, metres: two invented tidal constituents with the periods of M2 and S2, and a
    /// slow swell of the mean.
    /// </summary>
    public static double WaterLevel(DateTime utc)
    {
        var hours = (utc - SiteTime.FirstMorning).TotalHours;
        return (0.98 * Math.Cos(2 * Math.PI * ((hours / 12.4206) - 0.21)))
            + (0.31 * Math.Cos(2 * Math.PI * ((hours / 12.0) - 0.05)))
            + (0.12 * Math.Sin(2 * Math.PI * hours / 190));
    }
}
