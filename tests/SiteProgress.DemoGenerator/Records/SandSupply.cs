using SiteProgress.DemoGenerator.Site;
using SiteProgress.DemoGenerator.Work;

namespace SiteProgress.DemoGenerator.Records;

/// <summary>One line of the barges' sand accounts, loose cubic metres; a line that was never recorded is kept for the truth alone.</summary>
public sealed record SandLine(DateTime Time, string Entry, string Ticket, string Source, string Barge, double Volume, string Remark, bool Recorded);

/// <summary>
/// Sand as it came on board, Monday stocks and spills: each barge loads when its hopper runs low and every Monday at the
/// beginning of the working day the hopper is measured. One load of Plover is missing from the account.
/// </summary>
public static class SandSupply
{
    private const double Full = 900, Low = 200, MeasuringRatio = 0.008;

    public static IReadOnlyList<SandLine> Make(int seed, IReadOnlyList<Installation> installations)
    {
        var chance = ChanceSource.For(seed, "sand supply");
        var lines = new List<SandLine>();
        foreach (var barge in Barge.All)
        {
            var account = new Hopper(barge, chance, lines);
            foreach (var each in installations.Where(each => each.Barge == barge).OrderBy(each => each.Start).ThenBy(each => each.Casing))
                account.Build(each);
        }

        var missing = lines.Where(line => line is { Barge: "Plover", Entry: "delivered" }).Skip(20).First();
        lines[lines.IndexOf(missing)] = missing with { Recorded = false };
        return [.. lines.OrderBy(line => line.Time).ThenBy(line => line.Barge, StringComparer.Ordinal).ThenBy(line => line.Entry, StringComparer.Ordinal)];
    }

    private sealed class Hopper(Barge barge, ChanceSource chance, List<SandLine> lines)
    {
        private readonly Dictionary<string, double> _stock = [];
        private DateTime _nextMonday = Monday(SiteTime.BeginOf(barge.Arrives));
        private int _loads;

        public void Build(Installation each)
        {
            MeasureUntil(each.Start);
            var source = each.Zone.SandSource;
            var stock = _stock.GetValueOrDefault(source);
            if (stock < Low + each.Truth.Sand)
            {
                var load = Math.Round(Full - stock);
                stock += load;
                lines.Add(new SandLine(
                    each.Start.AddMinutes(-20), "delivered", FormattableString.Invariant($"{barge.Code}-S{++_loads:000}"), source, barge.Name,
                    Math.Round(load * chance.Normal(1, MeasuringRatio), 1), "", true));
            }

            stock -= each.Truth.Sand;
            if (chance.Chance(0.006))
            {
                var spilt = Math.Round(chance.Between(2, 7), 1);
                stock -= spilt;
                lines.Add(new SandLine(each.Start.AddMinutes(8), "wasted", "", source, barge.Name, spilt, "bucket spilt", true));
            }

            _stock[source] = stock;
        }

        private void MeasureUntil(DateTime now)
        {
            for (; _nextMonday <= now; _nextMonday = Monday(_nextMonday.AddDays(1)))
            {
                foreach (var (source, stock) in _stock)
                {
                    var measured = Math.Max(0, Math.Round(stock + chance.Normal(0, 4)));
                    lines.Add(new SandLine(_nextMonday, "stock", "", source, barge.Name, measured, "", true));
                }
            }
        }

        /// <summary>The beginning of the first Monday's working day at or after this instant.</summary>
        private static DateTime Monday(DateTime utc)
        {
            var day = SiteTime.WorkingDayOf(utc);
            while (day.DayOfWeek != DayOfWeek.Monday || SiteTime.BeginOf(day) < utc) day = day.AddDays(1);
            return SiteTime.BeginOf(day);
        }
    }
}
