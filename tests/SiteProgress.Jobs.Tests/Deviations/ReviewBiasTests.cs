using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Core.Bias;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Deviations;
using SiteProgress.Jobs.Tests.Demo;
using Xunit;

namespace SiteProgress.Jobs.Tests.Deviations;

/// <summary>The demo's planted faults (seed-data/truth/truth-faults.json): one casing wrong in the record, one barge wrong in record and steering.</summary>
[Collection(DemoCollection.Name)]
public sealed class ReviewBiasTests(DemoSite demo)
{
    [Fact]
    public async Task The_planted_casing_is_found_with_its_days_and_size_and_nothing_else_is_claimed_from_deviations()
    {
        BiasView view = await ReadAsync();

        BiasClaim claim = view.Findings.Claims.ShouldHaveSingleItem();
        claim.Named.Cause.ShouldBe(new Cause(CauseKind.CasingOffset, "Plover", 3));
        claim.FromDay!.Value.ToDateOnly().ShouldBeInRange(new DateOnly(2026, 3, 29), new DateOnly(2026, 3, 31));
        claim.ToDay!.Value.ToDateOnly().ShouldBeInRange(new DateOnly(2026, 4, 8), new DateOnly(2026, 4, 10));
        claim.SizeMetres.ShouldBe(0.20, 0.03);
        // Recorded minus true: 0.16 m forward and 0.12 m to port.
        Math.Abs(claim.Named.Values[0].Value - 0.16).ShouldBeLessThanOrEqualTo(claim.HalfWidth(claim.Named.Values[0]));
        Math.Abs(claim.Named.Values[1].Value + 0.12).ShouldBeLessThanOrEqualTo(claim.HalfWidth(claim.Named.Values[1]));
        claim.Others.ShouldAllBe(other => other.Excluded);
        claim.Support.Standing.ShouldBe(ClaimStanding.RecordWrong);
        claim.Touched.WithinThen.ShouldBeGreaterThan(claim.Touched.WithinNow);
    }

    [Fact]
    public async Task The_offset_the_barge_steers_by_is_found_from_check_measurements_alone()
    {
        BiasView view = await ReadAsync();

        CheckFinding curlew = view.Checks.Where(check => check.StandsOut).ShouldHaveSingleItem();
        (curlew.Barge, curlew.Casing).ShouldBe(("Curlew", null));
        // Recorded minus true: 0.15 m aft and 0.10 m to starboard.
        curlew.ForwardMetres.ShouldBe(-0.15, 2.5 * curlew.ForwardStandardError);
        curlew.StarboardMetres.ShouldBe(0.10, 2.5 * curlew.StarboardStandardError);
        view.Findings.Claims.ShouldAllBe(claim => claim.Named.Cause.Barge != "Curlew");
    }

    [Fact]
    public async Task Each_barge_says_how_long_ago_it_was_checked()
    {
        BiasView view = await ReadAsync();

        view.BargeChecks.Select(check => check.Barge).ShouldBe(["Curlew", "Plover", "Tern"]);
        view.BargeChecks.ShouldAllBe(check => check.DaysSince >= 0 && check.DaysSince < 40);
    }

    private async Task<BiasView> ReadAsync()
        => await ActivatorUtilities.CreateInstance<ReviewBias>(demo.Services).RunAsync(await demo.PermitAsync(Role.Surveyor), TestContext.Current.CancellationToken);
}
