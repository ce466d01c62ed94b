using System.Globalization;
using System.Text;

namespace SiteProgress.Bench.Intake;

/// <summary>The invented files of the intake bench: a square grid of piles and one installation for each, with noise.</summary>
internal static class IntakeFiles
{
    private const double SpacingMetres = 2.1;
    private const int PilesInARow = 400;

    public static byte[] Planned(int piles)
    {
        StringBuilder text = new("Pile No,Zone,X [m],Y [m],Diameter [m],Top level [m],Tip level [m]\n");
        for (int index = 0; index < piles; index++)
        {
            (double x, double y) = Place(index);
            text.Append(CultureInfo.InvariantCulture, $"{Number(index)},A,{x:0.000},{y:0.000},2.000,-12.40,-30.50\n");
        }

        return Encoding.UTF8.GetBytes(text.ToString());
    }

    public static byte[] Installed(int piles, int seed)
    {
        Random noise = new(seed);
        StringBuilder text = new(
            "Record,Pile No,Barge,Casing,Set-up,Start,End penetration,End,X touch-down [m],Y touch-down [m],X end [m],Y end [m],"
            + "Heading grid [deg],Top level [m],Tip level [m],Sand in casing [m3],Inclination [deg],Fix,Uncertainty [m],Outcome,Remark\n");
        DateTime start = new(2025, 11, 3, 6, 0, 0); // 70 winter days, without a change of the clocks
        for (int index = 0; index < piles; index++)
        {
            (double x, double y) = Place(index);
            DateTime begun = start.AddSeconds(index * 60.0);
            double dx = Normal(noise) * 0.06;
            double dy = Normal(noise) * 0.06;
            text.Append(CultureInfo.InvariantCulture,
                $"TRN-{index + 1:000000},{Number(index)},Tern,{(index % 3) + 1},S{index / 3},{begun:yyyy-MM-dd HH:mm:ss},{begun.AddMinutes(12):yyyy-MM-dd HH:mm:ss},{begun.AddMinutes(38):yyyy-MM-dd HH:mm:ss},"
                + $"{x + dx:0.000},{y + dy:0.000},{x + dx + 0.01:0.000},{y + dy - 0.01:0.000},33.00,{-12.4 + (Normal(noise) * 0.08):0.00},{-30.6 + (Normal(noise) * 0.08):0.00},{72 + (Normal(noise) * 1.2):0.0},0.30,RTK fixed,0.030,complete,\n");
        }

        return Encoding.UTF8.GetBytes(text.ToString());
    }

    private static string Number(int index) => string.Create(CultureInfo.InvariantCulture, $"A-{index + 1:000000}");

    private static (double X, double Y) Place(int index) => (index % PilesInARow * SpacingMetres, index / PilesInARow * SpacingMetres);

    private static double Normal(Random chance)
        => Math.Sqrt(-2 * Math.Log(1 - chance.NextDouble())) * Math.Cos(2 * Math.PI * chance.NextDouble());
}
