using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Deviations;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.Sites;
using SiteProgress.Storage;
using Xunit;

namespace SiteProgress.Jobs.Tests.Deviations;

/// <summary>Limits along the axes and alerts as the settings state them, through to figures, list and settings that are refused.</summary>
public sealed class DeviationLimitsTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private static CancellationToken Now => TestContext.Current.CancellationToken;

    [Fact]
    public async Task What_the_settings_state_is_what_list_figures_and_findings_hold_piles_to()
    {
        await using TestSite site = await TestSite.OpenAsync(database);
        // Four piles 40 mm along and 30 mm across; one moved to 90 mm along, one to 60 mm across.
        await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(4));
        await site.RecordAsync(Role.Surveyor, TestSite.BuiltRow(4).Select((body, index) => Moved(body, index)).ToArray());
        (await ReviewAsync(site)).Figures!.WithinLimit.ShouldBe(4);

        await ReviseAsync(site, zone => zone with { Limits = zone.Limits with { AlongMetres = 0.08, AcrossMetres = 0.07 }, AlertRadialMetres = null, Alerts = new Alerts(AcrossMetres: 0.05) });

        DeviationReview review = await ReviewAsync(site);
        (review.Figures!.WithinLimit, review.Figures.BeyondAlert).ShouldBe((3, 1));
        review.LimitsMetres.ShouldBe([0.15]);
        review.AxisLimits.ShouldBe([new AxisLimits(0.08, 0.07)]);
        ListDeviations.Page page = await ListAsync(site, new(DeviationSelection.All, OrderedBy: ListDeviations.Order.OfLimit));
        page.Rows.Select(row => row.Number).Take(2).ShouldBe(["A-0002", "A-0003"]);
        ListDeviations.Row worst = page.Rows[0];
        (worst.IsWithinLimit, worst.IsBeyondAlert, worst.Held!.Value.Measure).ShouldBe((false, false, PositionMeasure.Along));
        worst.LimitShareRatio!.Value.ShouldBe(0.09 / 0.08, 1e-6);
        (await ListAsync(site, new(DeviationSelection.All, PositionChoice.Alert))).Rows.ShouldHaveSingleItem().Number.ShouldBe("A-0003");
        (await ListAsync(site, new(DeviationSelection.All, PositionChoice.Beyond))).Rows.ShouldHaveSingleItem().Number.ShouldBe("A-0002");
        (await site.OneAsync<string>("select findings from derived.pile where site = $1 and number = 'A-0002'", (await site.PermitAsync(Role.Surveyor)).Site)).ShouldBe("Position");
    }

    [Fact]
    public async Task Settings_whose_alert_is_no_tighter_than_its_limit_or_that_limit_no_position_are_refused_in_words()
    {
        Zone zone = TestSite.Settings("test-site").Zones[0];

        (await RefusalAsync(zone with { Alerts = new Alerts(TopMetres: 0.31) }))!.ShouldContain("each alert at most its limit");
        (await RefusalAsync(zone with { AlertRadialMetres = null, Limits = zone.Limits with { RadialMetres = null, AlongMetres = 0.1 } }))!.ShouldContain("both alongMetres and acrossMetres");
        (await RefusalAsync(zone with { Limits = zone.Limits with { AcrossMetres = -0.1 } }))!.ShouldContain("limits above 0");
        (await RefusalAsync(zone with { AlertRadialMetres = null, Limits = zone.Limits with { RadialMetres = null, RadialDiameterRatio = 0.1 } })).ShouldBeNull();
    }

    private async Task<string?> RefusalAsync(Zone zone)
    {
        string code = "site-" + Guid.NewGuid().ToString("N")[..12];
        ServiceCollection services = new();
        services.AddSingleton(TimeProvider.System).AddSingleton(StoreOptions.DataSource(database.OwnerConnectionString)).AddRecording(Path.GetTempPath());
        services.AddSites();
        services.AddSingleton<SiteRecorder>();
        await using ServiceProvider provider = services.BuildServiceProvider();
        return (await ActivatorUtilities.CreateInstance<OpenSite>(provider).RunAsync(
            JsonSerializer.Serialize(TestSite.Settings(code) with { Zones = [zone] }, RecordJson.Options), null, TestSite.Marks, Now)).Refusal;
    }

    private static RecordBody Moved(RecordBody body, int index)
    {
        if (body is not PileInstalledBody built) return body;
        RecordedPosition at = built.Installation.TouchDown!.Value;
        RecordedPosition moved = index switch { 2 => at with { First = at.First + 0.05 }, 3 => at with { Second = at.Second + 0.03 }, _ => at };
        return built with { Installation = built.Installation with { TouchDown = moved, AtEndOfPenetration = moved } };
    }

    private static async Task ReviseAsync(TestSite site, Func<Zone, Zone> change)
    {
        SiteSettings settings = TestSite.Settings(site.Code);
        await site.RecordAsync(Role.Surveyor, [new SettingsBody(settings with { Zones = [change(settings.Zones[0])] }, null, false)]);
    }

    private static async Task<DeviationReview> ReviewAsync(TestSite site)
        => await ActivatorUtilities.CreateInstance<ReviewDeviations>(site.Services).RunAsync(await site.PermitAsync(Role.Surveyor), DeviationSelection.All, Now);

    private static async Task<ListDeviations.Page> ListAsync(TestSite site, ListDeviations.Request request)
        => await ActivatorUtilities.CreateInstance<ListDeviations>(site.Services).RunAsync(await site.PermitAsync(Role.Surveyor), request, Now);
}
