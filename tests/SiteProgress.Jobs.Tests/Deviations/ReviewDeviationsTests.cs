using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Core.Deviations;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Deviations;
using SiteProgress.Jobs.Tests.Demo;
using Xunit;

namespace SiteProgress.Jobs.Tests.Deviations;

/// <summary>The review of the demo against PostgreSQL's own statistics and the raw files.</summary>
[Collection(DemoCollection.Name)]
public sealed class ReviewDeviationsTests(DemoSite demo)
{
    public static TheoryData<string> Selections => ["all", "zone B", "Plover 3", "April", "later"];

    [Theory]
    [MemberData(nameof(Selections))]
    public async Task Figures_are_those_the_database_works_out_itself(string words)
    {
        (DeviationSelection selection, string where) = Named(words);
        where = $"from derived.pile where comparable and state > 0 and {where}";

        DeviationReview review = await ReviewAsync(selection);

        DeviationFigures figures = review.Figures.ShouldNotBeNull();
        ((long)figures.Count).ShouldBe(await demo.OneAsync<long>($"select count(*) {where}"));
        figures.East.MeanMetres.ShouldBe(await demo.OneAsync<double>($"select avg(deviation_east) {where}"), 1e-12);
        figures.North.MeanMetres.ShouldBe(await demo.OneAsync<double>($"select avg(deviation_north) {where}"), 1e-12);
        figures.Along.MeanMetres.ShouldBe(await demo.OneAsync<double>($"select avg(deviation_along) {where}"), 1e-12);
        figures.Across.MeanMetres.ShouldBe(await demo.OneAsync<double>($"select avg(deviation_across) {where}"), 1e-12);
        figures.East.StandardDeviationMetres!.Value.ShouldBe(await demo.OneAsync<double>($"select stddev_samp(deviation_east) {where}"), 1e-12);
        figures.RadialRmseMetres.ShouldBe(await demo.OneAsync<double>($"select sqrt(avg(deviation_radial ^ 2)) {where}"), 1e-12);
        figures.MedianRadialMetres.ShouldBe(await demo.OneAsync<double>($"select percentile_cont(0.5) within group (order by deviation_radial) {where}"), 1e-12);
        figures.Percentile95RadialMetres.ShouldBe(await demo.OneAsync<double>($"select percentile_cont(0.95) within group (order by deviation_radial) {where}"), 1e-12);
        ((long)figures.WithinLimit).ShouldBe(await demo.OneAsync<long>($"select count(*) {where} and deviation_radial <= radial_limit"));
    }

    [Theory]
    [InlineData("A", "Tern")]
    [InlineData("C", "Curlew")]
    public async Task Mean_deviation_of_a_barge_in_a_zone_is_that_of_the_raw_files(string zone, string barge)
    {
        var planned = RawFiles.Planned(zone.ToLowerInvariant());
        HashSet<string> elsewhere = [.. RawFiles.RecordsOf("wrong-frame")];
        var last = RawFiles.Built.Where(row => row.Barge == barge && row.Zone == zone && !elsewhere.Contains(row.Record))
            .GroupBy(row => row.Pile).Where(pile => pile.Count() == 1).Select(pile => pile.Single())
            .Where(row => row is { Fix: "RTK fixed", Outcome: "complete" or "refused" }).ToArray();
        var deviations = last.Select(row => Farther(row, planned[row.Pile])).ToArray();

        DeviationReview review = await ReviewAsync(new DeviationSelection(Zone: zone, Barge: barge, Attempt: AttemptChoice.First));

        last.Length.ShouldBeGreaterThan(50);
        review.Figures!.Count.ShouldBe(last.Length);
        review.Figures.Along.MeanMetres.ShouldBe(deviations.Average(one => one.X), 1e-9);
        review.Figures.Across.MeanMetres.ShouldBe(deviations.Average(one => one.Y), 1e-9);
        review.Figures.LargestRadialMetres.ShouldBe(deviations.Max(one => Math.Sqrt((one.X * one.X) + (one.Y * one.Y))), 1e-9);
    }

    [Fact]
    public async Task Casings_share_out_all_judged_piles_and_count_their_set_ups()
    {
        DeviationReview review = await ReviewAsync(DeviationSelection.All);

        review.Casings.Count.ShouldBe(9);
        review.Casings.Sum(one => one.Figures!.Count).ShouldBe(review.Figures!.Count);
        review.Casings.Sum(one => one.NotJudged).ShouldBe(review.NotJudged);
        CasingDeviation casing = review.Casings.Single(one => one is { Barge: "Tern", Casing: 2 });
        ((long)casing.SetUps).ShouldBe(await demo.OneAsync<long>(
            "select count(distinct set_up) from derived.pile where comparable and state > 0 and barge = 'Tern' and casing = 2"));
    }

    [Fact]
    public async Task The_days_of_the_wrong_casing_offset_stand_out()
    {
        DeviationReview review = await ReviewAsync(DeviationSelection.All);

        CasingDay[] farthest = review.CasingDays.Where(day => day.Piles >= 3).OrderByDescending(day => day.MeanVectorMetres).Take(7).ToArray();

        farthest.ShouldAllBe(day => day.Barge == "Plover" && day.Casing == 3);
        farthest.ShouldAllBe(day => day.WorkingDay >= new DateOnly(2026, 3, 30) && day.WorkingDay <= new DateOnly(2026, 4, 9));
    }

    [Fact]
    public async Task An_offset_the_barge_steers_by_leaves_no_mean_deviation()
    {
        DeviationReview review = await ReviewAsync(new DeviationSelection(Barge: "Curlew"));

        review.Figures!.MeanVectorMetres.ShouldBeLessThan(0.02);
    }

    [Fact]
    public async Task An_empty_selection_has_no_figures_and_breaks_nothing()
    {
        DeviationReview review = await ReviewAsync(new DeviationSelection(From: new(2031, 1, 1)));

        review.Figures.ShouldBeNull();
        review.Points.ShouldBeEmpty();
        review.Casings.ShouldBeEmpty();
        review.Choices.Zones.ShouldBe(["A", "B", "C"]);
    }

    [Fact]
    public async Task Rows_come_a_page_at_a_time_the_farthest_first()
    {
        ListDeviations.Request request = new(DeviationSelection.All, PositionChoice.Beyond, Take: 40);

        ListDeviations.Page first = await ListAsync(request);
        ListDeviations.Page second = await ListAsync(request with { Skip = 40 });
        ListDeviations.Page last = await ListAsync(request with { Skip = 80 });

        first.Total.ShouldBe(99);
        ListDeviations.Row[] rows = [.. first.Rows, .. second.Rows, .. last.Rows];
        rows.Length.ShouldBe(99);
        rows.Select(row => row.Number).Distinct().Count().ShouldBe(99);
        rows.ShouldAllBe(row => row.IsWithinLimit == false);
        rows.Select(row => row.DeviationRadialMetres!.Value).ShouldBeInOrder(SortDirection.Descending);
    }

    [Theory]
    [InlineData(PositionChoice.Within)]
    [InlineData(PositionChoice.Beyond)]
    [InlineData(PositionChoice.NotJudged)]
    public async Task Choices_of_the_limit_part_the_built_piles(PositionChoice choice)
    {
        ListDeviations.Page page = await ListAsync(new ListDeviations.Request(DeviationSelection.All, choice));

        page.Rows.Count.ShouldBe(page.Total);
        page.Rows.ShouldAllBe(row => (row.IsWithinLimit == null ? PositionChoice.NotJudged : row.IsWithinLimit.Value ? PositionChoice.Within : PositionChoice.Beyond) == choice);
        page.Total.ShouldBe(choice switch { PositionChoice.Within => 3348, PositionChoice.Beyond => 99, _ => 52 });
    }

    [Theory]
    [InlineData(ListDeviations.Order.Number)]
    [InlineData(ListDeviations.Order.OfLimit)]
    [InlineData(ListDeviations.Order.East)]
    [InlineData(ListDeviations.Order.North)]
    [InlineData(ListDeviations.Order.Along)]
    [InlineData(ListDeviations.Order.Across)]
    [InlineData(ListDeviations.Order.Zone)]
    [InlineData(ListDeviations.Order.Barge)]
    [InlineData(ListDeviations.Order.Day)]
    public async Task Every_column_sorts_both_ways(ListDeviations.Order order)
    {
        ListDeviations.Request request = new(new DeviationSelection(Zone: "C", From: new(2026, 5, 20)), OrderedBy: order, Descending: false);

        ListDeviations.Page up = await ListAsync(request);
        ListDeviations.Page down = await ListAsync(request with { Descending = true });

        up.Total.ShouldBe(down.Total);
        up.Rows.Select(row => row.Number).ShouldBe(down.Rows.Select(row => row.Number), ignoreOrder: true);
        IComparable[] keys = up.Rows.Select(row => Key(row, order)).ToArray();
        keys.ShouldBe(keys.Order().ToArray());
    }

    private static IComparable Key(ListDeviations.Row row, ListDeviations.Order order) => order switch
    {
        ListDeviations.Order.OfLimit => row.DeviationRadialMetres!.Value / row.RadialLimitMetres,
        ListDeviations.Order.East => row.DeviationEastMetres!.Value,
        ListDeviations.Order.North => row.DeviationNorthMetres!.Value,
        ListDeviations.Order.Along => row.DeviationAlongMetres!.Value,
        ListDeviations.Order.Across => row.DeviationAcrossMetres!.Value,
        ListDeviations.Order.Zone => row.Zone,
        ListDeviations.Order.Barge => (row.Barge!, row.Casing!.Value),
        ListDeviations.Order.Day => row.EndedAt!.Value,
        _ => row.Number,
    };

    private static (DeviationSelection Selection, string Where) Named(string words) => words switch
    {
        "zone B" => (new DeviationSelection(Zone: "B"), "zone = 'B'"),
        "Plover 3" => (new DeviationSelection(Barge: "Plover", Casing: 3), "barge = 'Plover' and casing = 3"),
        "April" => (new DeviationSelection(From: new(2026, 4, 1), To: new(2026, 4, 30)), "working_day between '2026-04-01' and '2026-04-30'"),
        "later" => (new DeviationSelection(Attempt: AttemptChoice.Later), "attempts > 1"),
        _ => (DeviationSelection.All, "true"),
    };

    private static (double X, double Y) Farther(RawRow row, (double X, double Y) planned)
    {
        (double X, double Y) touch = (row.TouchX!.Value - planned.X, row.TouchY!.Value - planned.Y);
        (double X, double Y) end = (row.EndX!.Value - planned.X, row.EndY!.Value - planned.Y);
        return (touch.X * touch.X) + (touch.Y * touch.Y) > (end.X * end.X) + (end.Y * end.Y) ? touch : end;
    }

    private async Task<DeviationReview> ReviewAsync(DeviationSelection selection)
        => await ActivatorUtilities.CreateInstance<ReviewDeviations>(demo.Services)
            .RunAsync(await demo.PermitAsync(Role.Surveyor), selection, TestContext.Current.CancellationToken);

    private async Task<ListDeviations.Page> ListAsync(ListDeviations.Request request)
        => await ActivatorUtilities.CreateInstance<ListDeviations>(demo.Services)
            .RunAsync(await demo.PermitAsync(Role.OwnersRepresentative), request, TestContext.Current.CancellationToken);
}
