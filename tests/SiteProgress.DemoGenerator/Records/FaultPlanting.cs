using SiteProgress.DemoGenerator.Site;
using SiteProgress.DemoGenerator.Work;

namespace SiteProgress.DemoGenerator.Records;

/// <summary>Plants the faults into good records, each kind into records no other kind touched, and lists them.</summary>
public sealed class FaultPlanting(int seed, IReadOnlyList<Installation> installations)
{
    /// <summary>Plover's casing 3 in the record for eight working days: recorded minus true, metres forward and starboard (0.20 m).</summary>
    public static readonly PlanePoint PloverCasingOffset = new(0.16, -0.12);

    public const int PloverDays = 8;

    private readonly ChanceSource _chance = ChanceSource.For(seed, "faults");

    public List<PlantedFault> Faults { get; } = [];

    /// <summary>Rows to repeat: the record, the identifier it is repeated under, and the end of the file period it is repeated in.</summary>
    public List<(Installation Original, string Record)> Repeats { get; } = [];

    public void PlantAll(IReadOnlyList<string> missed)
    {
        CasingOffset();
        CommonOffset();
        WrongFrame();
        WithoutTide();
        SwappedNumbers();
        TipShort();
        SandShort();
        Duplicates();
        Faults.Add(new PlantedFault("missed-pile", "Piles left out inside a block that is otherwise finished.") { Piles = missed });
    }

    private void CasingOffset()
    {
        var days = SiteTime.Days().Where(day => !SiteTime.IsRestDay(day)).ToList();
        var byDay = Of("Plover").Where(each => each.Casing == 3 && each.Planned is not null).ToLookup(each => each.WorkingDay);
        // The eight days with most piles of this casing, beginning and ending on days in which it worked, away from the ends of its time.
        var best = Enumerable.Range(14, days.Count - 14 - PloverDays - 10)
            .Where(first => byDay[days[first]].Count() >= 4 && byDay[days[first + PloverDays - 1]].Count() >= 4)
            .MaxBy(first => Enumerable.Range(first, PloverDays).Sum(index => byDay[days[index]].Count()));
        var touched = Enumerable.Range(best, PloverDays).SelectMany(index => byDay[days[index]]).ToList();
        foreach (var each in touched)
        {
            var shift = PlanePoint.FromShip(PloverCasingOffset.First, PloverCasingOffset.Second, each.RecordedHeadingOnSite);
            each.RecordedTouchDown += shift;
            each.RecordedEnd += shift;
            each.Faults.Add("casing-offset");
        }

        Faults.Add(new PlantedFault("casing-offset", "One casing's offset wrong in the record; the casing itself went right.")
        {
            Barge = "Plover",
            Casing = 3,
            FirstDay = SiteTime.Iso(days[best]),
            LastDay = SiteTime.Iso(days[best + PloverDays - 1]),
            ForwardMetres = PloverCasingOffset.First,
            StarboardMetres = PloverCasingOffset.Second,
            SizeMetres = Math.Round(PloverCasingOffset.Length, 4),
            SteersBy = "true",
            Records = Names(touched),
        });
    }

    private void CommonOffset()
    {
        var all = Of("Curlew").ToList();
        Faults.Add(new PlantedFault("common-offset", "The barge both steers by and records with a wrong offset: no deviation, only check measurements show it.")
        {
            Barge = "Curlew",
            FirstDay = SiteTime.Iso(all[0].WorkingDay),
            LastDay = SiteTime.Iso(all[^1].WorkingDay),
            ForwardMetres = PositionNoise.CurlewOffset.First,
            StarboardMetres = PositionNoise.CurlewOffset.Second,
            SizeMetres = Math.Round(PositionNoise.CurlewOffset.Length, 4),
            SteersBy = "recorded",
        });
    }

    private void WrongFrame()
    {
        var morning = Of("Tern")
            .Where(each => SiteTime.ToSite(each.End).Hour is >= 6 and < 12 && Clean(each))
            .GroupBy(each => each.WorkingDay)
            .Where(group => group.Key > new DateOnly(2026, 4, 13) && group.Count() is >= 6 and <= 15 && group.All(each => each.Outcome == "complete"))
            .MinBy(group => group.Key)!
            .ToList();
        morning.ForEach(each =>
        {
            each.WrittenInWrongFrame = true;
            each.Faults.Add("wrong-frame");
        });
        AddFor("wrong-frame", "Eastings and northings of EPSG:25832 written under the site grid's headers for one morning.", morning, 0);
    }

    private void WithoutTide()
    {
        // A night or day shift in spring tides in which Tern built many piles over the whole tide.
        var shift = Of("Tern").Where(Clean)
            .GroupBy(each => (each.WorkingDay, Night: SiteTime.ToSite(each.End).Hour is >= 18 or < 6))
            .Where(group => group.Key.WorkingDay > new DateOnly(2026, 4, 20) && group.Count() >= 12 && group.All(each => each.Outcome == "complete"))
            .MaxBy(group => group.Max(each => Math.Abs(Sea.WaterLevel(each.EndOfPenetration))) + (0.02 * group.Count()))!
            .ToList();
        foreach (var each in shift)
        {
            each.RecordedTip = Math.Round(each.RecordedTip - Sea.WaterLevel(each.EndOfPenetration), 2);
            each.RecordedTop = Math.Round(each.RecordedTop!.Value - Sea.WaterLevel(each.End), 2);
            each.Faults.Add("no-tide");
        }

        AddFor("no-tide", "Levels read without the tide for one shift; the error follows the tide, its size is the largest.", shift,
            shift.Max(each => Math.Abs(Sea.WaterLevel(each.EndOfPenetration))));
    }

    private void SwappedNumbers()
    {
        // Neighbours along a row, built from two set-ups one after the other: the crew wrote each under the other's number.
        var byPlace = Of("Plover").Where(Ordinary).ToDictionary(each => (each.Planned!.Zone.Code, each.Planned.Row, each.Planned.Column));
        var first = byPlace.Values.Where(each => each.WorkingDay > new DateOnly(2026, 3, 20))
            .First(each => byPlace.TryGetValue((each.Planned!.Zone.Code, each.Planned.Row, each.Planned.Column + 1), out var next)
                && next.WorkingDay == each.WorkingDay);
        var second = byPlace[(first.Planned!.Zone.Code, first.Planned.Row, first.Planned.Column + 1)];
        (first.RecordedPile, second.RecordedPile) = (second.RecordedPile, first.RecordedPile);
        first.Faults.Add("swapped-number");
        second.Faults.Add("swapped-number");
        AddFor("swapped-number", "Two neighbours recorded under each other's number.", [first, second], null);
    }

    private void TipShort()
    {
        foreach (var each in Pick(12, each => each.Zone.TipLevel is not null))
        {
            var by = Math.Round(_chance.Between(0.4, 1.5), 2);
            each.Truth.Tip = each.Zone.TipLevel!.Value + by;
            each.RecordedTip = Math.Round(each.Truth.Tip, 2);
            each.Faults.Add("tip-short");
            AddFor("tip-short", "Tip above the design tip level.", [each], by);
        }
    }

    private void SandShort()
    {
        foreach (var each in Pick(10, each => each.Zone.TipLevel is not null || each.Truth.Tip < each.Zone.TopLevel - each.Zone.LeastLength))
        {
            var by = Math.Round(_chance.Between(0.12, 0.25), 3);
            var length = Math.Max(each.Truth.Top!.Value - each.Truth.Tip, each.Zone.PlannedLength);
            each.Truth.Sand = each.Zone.Section * length * (1 - by) / SandSourceDesign.FactorOf(each.Zone.SandSource);
            each.RecordedSand = Math.Round(each.Truth.Sand, 1);
            each.Faults.Add("sand-short");
            Faults.Add(Fault("sand-short", "Sand in the pile short of the design sand on the built length.", [each]) with { SizeRatio = by });
        }
    }

    private void Duplicates()
    {
        var same = Pick(1, each => each.Barge.Name == "Tern" && each.WorkingDay < new DateOnly(2026, 3, 14))[0];
        var other = Pick(1, each => each.Barge.Name == "Plover" && each.WorkingDay < new DateOnly(2026, 5, 9))[0];
        Repeats.Add((same, same.Record));
        Repeats.Add((other, other.Record + "A"));
        same.Faults.Add("duplicate-same-record");
        other.Faults.Add("duplicate-other-record");
        AddFor("duplicate-same-record", "The same record again, word for word, in the barge's next file.", [same], null);
        Faults.Add(Fault("duplicate-other-record", "The same content again in the barge's next file, under another record identifier.", [other])
            with
        { Records = [other.Record, other.Record + "A"] });
    }

    private List<Installation> Pick(int count, Func<Installation, bool> suits)
    {
        var candidates = installations.Where(each => Ordinary(each) && suits(each)).ToList();
        var picked = new List<Installation>();
        while (picked.Count < count)
        {
            var index = _chance.Whole(0, candidates.Count - 1);
            picked.Add(candidates[index]);
            candidates.RemoveAt(index);
        }

        return [.. picked.OrderBy(each => each.End)];
    }

    private static bool Clean(Installation each) => each.Faults.Count == 0 && each.Planned is not null;

    /// <summary>A pile built at the first attempt, well positioned, with nothing else to say about it.</summary>
    private static bool Ordinary(Installation each) =>
        Clean(each) && each is { Outcome: "complete", Attempt: 1, Fix: "RTK fixed" }
        && (each.RecordedTouchDown - each.Planned!.Position).Length < each.Zone.RadialAlert
        && (each.RecordedEnd - each.Planned.Position).Length < each.Zone.RadialAlert;

    private IEnumerable<Installation> Of(string barge) => installations.Where(each => each.Barge.Name == barge);

    private static string[] Names(IEnumerable<Installation> of) => [.. of.Select(each => each.Record)];

    private void AddFor(string code, string what, List<Installation> of, double? size) =>
        Faults.Add(Fault(code, what, of) with { SizeMetres = size is { } metres and not 0 ? Math.Round(metres, 2) : null });

    private static PlantedFault Fault(string code, string what, List<Installation> of) => new(code, what)
    {
        Barge = of[0].Barge.Name,
        Casing = of.Count == 1 ? of[0].Casing : null,
        FirstDay = SiteTime.Iso(of.Min(each => each.WorkingDay)),
        LastDay = SiteTime.Iso(of.Max(each => each.WorkingDay)),
        Records = Names(of),
        Piles = [.. of.Select(each => each.Truth.Pile)],
    };
}
