using System.Globalization;
using System.Text;

namespace SiteProgress.Jobs.Tests;

/// <summary>
/// The log of a pile as a logger writes it: down to the tip, then one metre of pile a cycle by the mass balance, then out. A sample
/// in two seconds; the gauge trembles by two centimetres.
/// </summary>
internal static class PlainLog
{
    public const string Header = "Time,Record,Pile No,Barge,Casing,Casing tip level [m],Sand above tip [m],Inclination X [deg],Charge [m3]\n";

    /// <summary>Inner area of a casing of 1.2 m, square metres.</summary>
    private const double Area = Math.PI / 4 * 1.2 * 1.2;

    /// <summary>The rows of one log.</summary>
    /// <param name="record">The sender's identifier.</param>
    /// <param name="pile">Pile number; empty where the log names none.</param>
    /// <param name="start">Time of the first sample.</param>
    /// <param name="tip">Deepest level.</param>
    /// <param name="cycles">Cycles of a metre each.</param>
    /// <param name="withdrawal">Withdrawal of a cycle; the sand falls by as much.</param>
    /// <param name="hangAt">Cycle in which the sand stays in the casing over the first metre; -1 for none.</param>
    public static string Rows(string record, string pile, DateTime start, double tip, int cycles, double withdrawal = 3.6, int hangAt = -1)
    {
        StringBuilder text = new();
        double second = 0, level = -11, height = 2 + (cycles * withdrawal);
        double pour = height * Area;
        void Go(double to, double sand, double seconds)
        {
            int steps = Math.Max(1, (int)Math.Round(seconds / 2));
            (double from, double before) = (level, height);
            for (int step = 1; step <= steps; step++)
            {
                (level, height, second) = (from + ((to - from) * step / steps), before + ((sand - before) * step / steps), second + 2);
                double shown = height + (0.01 * (((int)second * 7919 % 5) - 2));
                text.Append(CultureInfo.InvariantCulture, $"{start.AddSeconds(second):yyyy-MM-dd'T'HH:mm:ss'Z'},{record},{pile},Tern,1,{level:0.00},{shown:0.00},0.20,{pour:0.00}\n");
                pour = 0;
            }
        }

        Go(level, height, 40);
        Go(tip, height, 400);
        Go(tip, height, 20);
        for (int cycle = 0; cycle < cycles; cycle++)
        {
            double bottom = level, hung = cycle == hangAt ? 1 : 0;
            if (hung > 0) Go(bottom + hung, height, 20);
            Go(bottom + withdrawal, height - (withdrawal - hung), 20 * (withdrawal - hung));
            Go(level, height, 6);
            Go(bottom + 1, height, 16 * (withdrawal - 1));
            Go(level, height, 10);
        }

        Go(-9, height, 40);
        Go(-9, height, 20);
        return text.ToString();
    }

    /// <summary>The same log as lists of JSON.</summary>
    public static string Json(string record, string pile, DateTime start, double tip, int cycles)
    {
        string[][] rows = [.. Rows(record, pile, start, tip, cycles).Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(row => row.Split(','))];
        string List(Func<string[], string> value) => string.Join(',', rows.Select(value));
        double begins = (DateTime.Parse(rows[0][0], CultureInfo.InvariantCulture, DateTimeStyles.AdjustToUniversal) - start).TotalSeconds;
        return string.Create(CultureInfo.InvariantCulture, $$"""
            {"record":"{{record}}","pileNo":"{{pile}}","barge":"Tern","casing":1,"firstSample":"{{start:yyyy-MM-dd'T'HH:mm:ss'Z'}}","seconds":[{{string.Join(',', Enumerable.Range(0, rows.Length).Select(index => begins + (2 * index)))}}],
             "casingTipLevel":[{{List(row => row[5])}}],"sandAboveTip":[{{List(row => row[6])}}],"inclinationX":[{{List(row => row[7])}}],"charge":[{{List(row => row[8])}}]}
            """);
    }
}
