using SiteProgress.DemoGenerator.Records;
using SiteProgress.DemoGenerator.Site;

namespace SiteProgress.DemoGenerator.Work;

/// <summary>The whole period of work: all barges' installations in the order in which casings left the piles, and their diaries.</summary>
public sealed class SiteWork
{
    public SiteWork(int seed, SiteLayout layout, IReadOnlySet<string> missed)
    {
        var sea = new Sea(seed);
        var process = new InstallationProcess(seed);
        var plan = new SetUpPlan(layout, missed);
        var all = new List<Installation>();
        var diary = new List<DiaryLine>();
        foreach (var barge in Barge.All)
        {
            var simulation = new BargeSimulation(barge, sea, process, seed);
            simulation.Run(plan.For(barge));
            var running = 0;
            foreach (var made in simulation.Installations.OrderBy(each => each.End).ThenBy(each => each.Casing))
            {
                made.Record = FormattableString.Invariant($"{barge.Code}-{++running:00000}");
                made.RecordedPile = made.Truth.Pile;
            }

            all.AddRange(simulation.Installations);
            diary.AddRange(simulation.Diary.Lines);
        }

        Installations = [.. all.OrderBy(each => each.End).ThenBy(each => each.Record, StringComparer.Ordinal)];
        Diary = [.. diary.OrderBy(line => line.Day).ThenBy(line => line.Barge, StringComparer.Ordinal)];
    }

    public IReadOnlyList<Installation> Installations { get; }

    public IReadOnlyList<DiaryLine> Diary { get; }
}
