using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Deviations;
using Xunit;

namespace SiteProgress.Jobs.Tests.Deviations;

/// <summary>Review, list, search for bias and neighbours of sites with hardly any records, and of records that are all alike, incomplete or absurd.</summary>
public sealed class HostileRecordsTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private static CancellationToken Now => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public async Task Few_records_break_nothing(int count)
    {
        await using TestSite site = await FilledAsync(count, (_, at) => at);

        DeviationReview review = await ReviewAsync(site);
        (review.Figures?.Count ?? 0).ShouldBe(count);
        review.Figures?.East.StandardDeviationMetres.HasValue.ShouldBe(count > 1);
        (await BiasAsync(site)).Findings.Claims.ShouldBeEmpty();
        (await NeighboursAsync(site)).Review.Pairs.ShouldBe(Math.Max(0, count - 1));
        (await ListAsync(site)).Total.ShouldBe(count);
    }

    [Fact]
    public async Task Deviations_all_alike_have_no_spread_and_no_ratio_that_is_not_a_number()
    {
        await using TestSite site = await FilledAsync(30, (_, at) => at);

        DeviationReview review = await ReviewAsync(site);
        review.Figures!.Along.StandardDeviationMetres!.Value.ShouldBe(0, 1e-9);
        review.Figures.WithinLimit.ShouldBe(30);
        review.Histogram.Sum(bin => bin.Piles).ShouldBe(30);
        review.Charts.ShouldAllBe(chart => double.IsFinite(chart.LimitMetres));
        (await NeighboursAsync(site)).Review.Wider.ShouldBeEmpty();
        await BiasAsync(site);
    }

    [Fact]
    public async Task Records_without_a_position_wait_for_a_person_and_enter_no_figure()
    {
        await using TestSite site = await FilledAsync(6, (_, _) => null);

        DeviationReview review = await ReviewAsync(site);
        (review.Figures, review.NotJudged, review.Points.Count).ShouldBe((null, 0, 0));
        (await ListAsync(site)).Total.ShouldBe(0);
        (await site.OneAsync<long>("select count(*) from derived.installation where site = $1 and waits_for_decision", (await site.PermitAsync(Role.Surveyor)).Site)).ShouldBe(6);
        (await BiasAsync(site)).Findings.Claims.ShouldBeEmpty();
    }

    [Fact]
    public async Task A_position_a_million_kilometres_off_is_shown_as_what_it_is_and_moves_no_other_figure_from_its_place()
    {
        await using TestSite site = await FilledAsync(8, (index, at) => index == 3 ? at with { First = 1e9 } : at);

        // No adjustment reaches that far and no design position lies near: the record waits for a person instead of entering figures.
        DeviationReview review = await ReviewAsync(site);
        review.Figures!.LargestRadialMetres.ShouldBe(0.05, 1e-6);
        review.Figures.Count.ShouldBe(7);
        (await BiasAsync(site)).Findings.Claims.ShouldBeEmpty();
        await NeighboursAsync(site);
    }

    private async Task<TestSite> FilledAsync(int count, Func<int, RecordedPosition, RecordedPosition?> position)
    {
        TestSite site = await TestSite.OpenAsync(database);
        if (count == 0) return site;
        await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(count));
        await site.RecordAsync(Role.Surveyor, TestSite.BuiltRow(count).Select((body, index) =>
        {
            if (body is not PileInstalledBody built) return body;
            RecordedPosition? at = position(index - 1, built.Installation.TouchDown!.Value);
            return built with { Installation = built.Installation with { TouchDown = at, AtEndOfPenetration = at } };
        }).ToArray());
        return site;
    }

    private static async Task<DeviationReview> ReviewAsync(TestSite site) => await Job<ReviewDeviations>(site).RunAsync(await site.PermitAsync(Role.Surveyor), DeviationSelection.All, Now);

    private static async Task<ListDeviations.Page> ListAsync(TestSite site) => await Job<ListDeviations>(site).RunAsync(await site.PermitAsync(Role.Surveyor), new(DeviationSelection.All), Now);

    private static async Task<BiasView> BiasAsync(TestSite site) => await Job<ReviewBias>(site).RunAsync(await site.PermitAsync(Role.Surveyor), Now);

    private static async Task<ReviewNeighbours.View> NeighboursAsync(TestSite site) => await Job<ReviewNeighbours>(site).RunAsync(await site.PermitAsync(Role.Surveyor), new(), Now);

    private static T Job<T>(TestSite site) => ActivatorUtilities.CreateInstance<T>(site.Services);
}
