using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Deviations;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.Verification;
using Xunit;

namespace SiteProgress.Jobs.Tests.Deviations;

/// <summary>A correction of recorded positions from the look beforehand to its withdrawal, on a site of its own.</summary>
public sealed class CorrectionTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private static readonly DateOnly Day = new(2026, 3, 10);

    /// <summary>Recorded 0.16 m forward and 0.12 m to port of where they are, on heading 33 degrees of a grid whose axes are those of the CRS.</summary>
    private static readonly CorrectionRequest Asked = new("Tern", 1, Day, Day, 0.16, -0.12, "offset of casing 1 measured");

    private static CancellationToken Now => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Adopting_takes_the_offset_off_and_withdrawing_puts_it_back()
    {
        await using TestSite site = await FilledAsync();
        double before = await RadialAsync(site);
        before.ShouldBe(0.20, 1e-9);

        long correction = await ProposedAsync(site);
        (await RadialAsync(site)).ShouldBe(before, 1e-12, "a proposal alone changes nothing");
        (await DecideAsync(site, correction)).ShouldBeNull();

        (await RadialAsync(site)).ShouldBe(0, 1e-9);
        (await site.OneAsync<long>(At(site, "select count(*) from derived.installation where site = {0} and position_correction is not null"))).ShouldBe(6);
        (await site.OneAsync<double>(At(site, "select abs(difference_east) + abs(difference_north) from derived.position_check where site = {0}"))).ShouldBe(0, 1e-9);
        (await site.Services.GetRequiredService<VerifySite>().RunAsync(site.Code, Now))!.Sound.ShouldBeTrue();

        (await Job<WithdrawCorrection>(site).RunAsync(await site.PermitAsync(Role.Surveyor), correction, "measured again", Now)).ShouldBeNull();
        (await RadialAsync(site)).ShouldBe(before, 1e-12);
        CorrectionLine line = (await Job<ReadCorrections>(site).RunAsync(await site.PermitAsync(Role.ProjectManager), Now)).ShouldHaveSingleItem();
        (line.Correction.Decision!.Adopted, line.Correction.Withdrawal!.Reason, line.FirstDay).ShouldBe((true, "measured again", Day));
    }

    [Fact]
    public async Task The_look_beforehand_says_what_adopting_then_does()
    {
        await using TestSite site = await FilledAsync();

        (CorrectionEffect? effect, string? refusal) = await Job<ProposeCorrection>(site).PreviewAsync(await site.PermitAsync(Role.Surveyor), Asked, Now);

        refusal.ShouldBeNull();
        (effect!.Records, effect.CheckMeasurements, effect.BeyondNow, effect.BeyondThen).ShouldBe((6, 1, 6, 0));
        effect.Changes.Count.ShouldBe(6);
        effect.Changes[0].ThenMetres.ShouldBe(0, 1e-9);
        long correction = await ProposedAsync(site);
        await DecideAsync(site, correction);
        (await site.OneAsync<long>(At(site, "select count(*) from derived.pile where site = {0} and deviation_radial > radial_limit"))).ShouldBe(effect.BeyondThen);
    }

    [Fact]
    public async Task Without_a_check_measurement_nothing_can_be_corrected()
    {
        await using TestSite site = await FilledAsync(withCheck: false);

        (_, string? refusal) = await Job<ProposeCorrection>(site).RunAsync(await site.PermitAsync(Role.Surveyor), Asked, Now);

        refusal.ShouldNotBeNull().ShouldContain("No check measurement of Tern, casing 1");
        (await Job<ReadCorrections>(site).RunAsync(await site.PermitAsync(Role.Surveyor), Now)).ShouldBeEmpty();
    }

    [Theory]
    [InlineData("Plover", 1, 0.1, "why", "No record of Plover")]
    [InlineData("Tern", 1, 7.0, "why", "larger than 5 m")]
    [InlineData("Tern", 1, 0.1, " ", "reason is missing")]
    [InlineData("Tern", 9, 0.1, "why", "No record of Tern, casing 9")]
    public async Task What_cannot_be_corrected_is_refused_with_the_reason(string barge, int casing, double forward, string reason, string expected)
    {
        await using TestSite site = await FilledAsync();

        (_, string? refusal) = await Job<ProposeCorrection>(site).RunAsync(
            await site.PermitAsync(Role.Surveyor), Asked with { Barge = barge, Casing = casing, ForwardMetres = forward, Reason = reason }, Now);

        refusal.ShouldNotBeNull().ShouldContain(expected);
    }

    [Fact]
    public async Task Nobody_decides_their_own_proposal_and_nothing_is_decided_twice()
    {
        await using TestSite site = await FilledAsync();
        long correction = await ProposedAsync(site);
        Guid surveyor = site.People[Role.Surveyor];
        await site.Services.GetRequiredService<Sites.GrantRole>().RunAsOperatorAsync(site.Code, surveyor, Role.OwnersRepresentative, Now);
        Permit permit = (await site.Services.GetRequiredService<Gate>().EnterAsync(surveyor, site.Code, Now))!;

        (await Job<DecideCorrection>(site).RunAsync(permit, correction, true, "mine", Now)).ShouldNotBeNull().ShouldContain("another person decides");
        (await DecideAsync(site, correction)).ShouldBeNull();
        (await DecideAsync(site, correction)).ShouldNotBeNull().ShouldContain("adopted already");
    }

    private async Task<TestSite> FilledAsync(bool withCheck = true)
    {
        TestSite site = await TestSite.OpenAsync(database);
        await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(6));
        (double east, double north) = Core.Bias.BargeFrame.ToGrid(0.16, -0.12, 33);
        RecordBody[] built = TestSite.BuiltRow(6).Select(body => body is PileInstalledBody row ? row with { Installation = Moved(row.Installation, row.Line - 2, east, north) } : body).ToArray();
        await site.RecordAsync(Role.Surveyor, built);
        if (!withCheck) return site;
        BatchBody batch = (BatchBody)built[0] with { Upload = Guid.NewGuid(), Content = BatchContent.CheckMeasurements, RowsRead = 1, RowsRecorded = 1 };
        await site.RecordAsync(Role.Surveyor,
        [
            batch,
            new PositionCheckedBody(2, new CheckMeasurement(
                Instant.FromUtc(2026, 3, 10, 6, 5), "Tern", 1, TestSite.Number(0), new RecordedPosition(Frame.SiteGrid, east, north), new RecordedPosition(Frame.SiteGrid, 0, 0), "total station", 0.04)),
        ]);
        return site;
    }

    private static Installation Moved(Installation built, long index, double east, double north)
    {
        RecordedPosition at = new(Frame.SiteGrid, (index * 2.1) + east, north);
        return built with { TouchDown = at, AtEndOfPenetration = at };
    }

    private static async Task<long> ProposedAsync(TestSite site)
    {
        (long? sequence, string? refusal) = await Job<ProposeCorrection>(site).RunAsync(await site.PermitAsync(Role.Surveyor), Asked, Now);
        return sequence.ShouldNotBeNull(refusal);
    }

    private static async Task<string?> DecideAsync(TestSite site, long correction)
        => await Job<DecideCorrection>(site).RunAsync(await site.PermitAsync(Role.OwnersRepresentative), correction, true, "seen on site", Now);

    private static Task<double> RadialAsync(TestSite site) => site.OneAsync<double>(At(site, "select max(deviation_radial) from derived.pile where site = {0}"));

    private static string At(TestSite site, string sql) => string.Format(System.Globalization.CultureInfo.InvariantCulture, sql, $"(select site from record.site where code = '{site.Code}')");

    private static T Job<T>(TestSite site) => ActivatorUtilities.CreateInstance<T>(site.Services);
}
