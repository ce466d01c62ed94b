using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Progress;
using SiteProgress.Jobs.Verification;
using Xunit;

namespace SiteProgress.Jobs.Tests.Progress;

public sealed class KeepDiaryTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private static readonly DateOnly Day = new(2026, 3, 10);

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Hours_that_add_up_are_kept_and_later_ones_replace_them_with_a_reason()
    {
        await using TestSite site = await TestSite.OpenAsync(database);

        (await KeepAsync(site, null, ("installing", 10), ("standby", 14))).ShouldBeNull();
        (await KeepAsync(site, null, ("installing", 24))).ShouldBe("Tern has hours on that day already; say why they are replaced.");
        (await KeepAsync(site, "the night was worked", ("installing", 20), ("sand", 4))).ShouldBeNull();

        (await site.OneAsync<string>("select string_agg(activity || ' ' || hours, ', ' order by place) from derived.diary_line where site = (select site from record.site where code = $1)", site.Code))
            .ShouldBe("installing 20, sand 4");
        (await site.OneAsync<long>("select count(*) from record.site_record where kind = 91 and site = (select site from record.site where code = $1)", site.Code)).ShouldBe(2);
    }

    [Theory]
    [InlineData(23.5, "The hours add up to 23.5; this working day has 24, so 0.5 h are missing.")]
    [InlineData(24.5, "The hours add up to 24.5; this working day has 24, so 0.5 h are too many.")]
    public async Task Hours_that_do_not_add_up_are_refused_with_the_difference(double hours, string refusal)
    {
        await using TestSite site = await TestSite.OpenAsync(database);

        (await KeepAsync(site, null, ("installing", (decimal)hours))).ShouldBe(refusal);
    }

    [Fact]
    public async Task A_plan_of_work_with_an_unknown_zone_or_turned_dates_is_refused_and_a_good_one_kept()
    {
        await using TestSite site = await TestSite.OpenAsync(database);
        LocalDate first = new(2026, 6, 1);

        (await ReviseAsync(site, new ZonePlan("Q", first, first, null, null))).ShouldBe("There is no zone \"Q\"; the site has A.");
        (await ReviseAsync(site, new ZonePlan("A", first, first.PlusDays(-1), null, null))).ShouldBe("Zone A ends on 2026-05-31, before it begins on 2026-06-01.");
        (await ReviseAsync(site, new ZonePlan("A", first, null, null, null))).ShouldBe("Zone A needs a last day or a rate of piles per day, one of the two.");
        (await ReviseAsync(site, new ZonePlan("A", first, null, 20, null))).ShouldBeNull();

        (await site.OneAsync<string>("select plan #>> '{zones,0,zone}' from derived.work_plan where site = (select site from record.site where code = $1)", site.Code)).ShouldBe("A");
    }

    [Fact]
    public async Task Notes_are_kept_once_and_the_derived_state_is_what_the_records_give()
    {
        await using TestSite site = await TestSite.OpenAsync(database);
        Permit manager = await site.PermitAsync(Role.ProjectManager);
        KeepDayNotes keep = ActivatorUtilities.CreateInstance<KeepDayNotes>(site.Services);
        DayNotes notes = new(" wind west 5 ", null, null, "", "zone A on");

        (await keep.RunAsync(manager, Day, new DayNotes(null, " ", null, null, null), Cancellation)).ShouldBe("There is nothing to keep: every note is empty.");
        (await keep.RunAsync(manager, Day, notes, Cancellation)).ShouldBeNull();
        (await keep.RunAsync(manager, Day, notes, Cancellation)).ShouldBeNull();

        (await site.OneAsync<string>("select notes ->> 'weatherAndSea' from derived.day_notes where site = (select site from record.site where code = $1)", site.Code)).ShouldBe("wind west 5");
        (await site.OneAsync<long>("select count(*) from record.site_record where kind = 94 and site = (select site from record.site where code = $1)", site.Code)).ShouldBe(1);
        VerifySite verify = ActivatorUtilities.CreateInstance<VerifySite>(site.Services);
        (await verify.RunAsync(site.Code, Cancellation))!.Tables.ShouldAllBe(table => table.Identical);
    }

    private static async Task<string?> KeepAsync(TestSite site, string? reason, params (string Activity, decimal Hours)[] lines)
        => await ActivatorUtilities.CreateInstance<KeepDiaryDay>(site.Services).RunAsync(
            await site.PermitAsync(Role.ProjectManager), Day, "tern", lines.Select(line => new KeepDiaryDay.Line(line.Activity, null, null, line.Hours, null)).ToArray(), reason, Cancellation);

    private static async Task<string?> ReviseAsync(TestSite site, ZonePlan zone)
        => await ActivatorUtilities.CreateInstance<ReviseWorkPlan>(site.Services).RunAsync(
            await site.PermitAsync(Role.ProjectManager), WorkPlan.Empty with { Zones = [zone] }, "first plan", Cancellation);
}
