using System.Text.Json;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.History;
using SiteProgress.Jobs.Sites;
using SiteProgress.Jobs.Tests.RecordsIn;
using SiteProgress.Jobs.Treatment;
using Xunit;

namespace SiteProgress.Jobs.Tests.Settings;

/// <summary>Settings revised on the demo's site: what is the site's own at once, what belongs to the contract by approval.</summary>
public sealed class ReviseSettingsTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    [Fact]
    public async Task What_is_the_sites_own_comes_into_force_at_once_with_its_reason()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit administrator = await intake.PermitAsync(Role.Administrator);
        SiteSettings was = (await intake.Get<ReadSettings>().RunAsync(administrator, Intake.Cancellation))!;
        string text = Text(was with { Barges = [.. was.Barges, was.Barges[0] with { Name = "Dunlin" }] });

        WorkedOutSettings worked = (await intake.Get<ReviseSettings>().WorkOutAsync(administrator, text, Intake.Cancellation))!;
        worked.NeedsApproval.ShouldBeFalse();
        SettingsAnswer answer = await intake.Get<ReviseSettings>().RecordAsync(administrator, text, "A fourth barge comes.", worked.Hash, worked.InForceSince, Intake.Cancellation);

        (answer.Waits, answer.Refusal).ShouldBe((false, null));
        (await intake.Get<ReadSettings>().RunAsync(administrator, Intake.Cancellation))!.FindBarge("Dunlin").ShouldNotBeNull();
        HistoryEntry entry = (await intake.Get<ReadHistory>().RunAsync(administrator, new HistoryFilter(null, null, null, null), 0, 1, Intake.Cancellation)).Entries.Single();
        (entry.What, entry.Why).ShouldBe(("Settings revised: barges.", "A fourth barge comes."));
        (await intake.Get<ReviseSettings>().RecordAsync(administrator, text, "again", worked.Hash, worked.InForceSince, Intake.Cancellation)).Refusal!.ShouldContain("Nothing differs");
    }

    [Fact]
    public async Task A_limit_waits_for_the_owners_representative_and_the_second_to_decide_is_told()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        (Permit administrator, Permit owner) = (await intake.PermitAsync(Role.Administrator), await intake.PermitAsync(Role.OwnersRepresentative));
        SiteSettings was = (await intake.Get<ReadSettings>().RunAsync(administrator, Intake.Cancellation))!;
        string text = Text(WithLimit(was, 0.120));
        WorkedOutSettings worked = (await intake.Get<ReviseSettings>().WorkOutAsync(administrator, text, Intake.Cancellation))!;
        worked.NeedsApproval.ShouldBeTrue();
        long proposal = (await intake.Get<ReviseSettings>().RecordAsync(administrator, text, "Tighter, SH-OR-09.", worked.Hash, worked.InForceSince, Intake.Cancellation)).Sequence!.Value;

        (await LimitAsync(intake, owner)).ShouldBe(was.Zones[0].Limits.RadialMetres);
        ReadDecisions.Item waiting = (await intake.Get<ReadDecisions>().RunAsync(owner, Intake.Cancellation)).Items.Single(item => item.For == ReadDecisions.WaitsFor.Settings);
        (waiting.Number, waiting.Mine).ShouldBe(((int)proposal, true));
        (await intake.Get<ReadDecisions>().RunAsync(administrator, Intake.Cancellation)).Items.Single(item => item.For == ReadDecisions.WaitsFor.Settings).Mine.ShouldBeFalse();

        DecideSettings decide = intake.Get<DecideSettings>();
        (await decide.RunAsync(owner, proposal, true, "", worked.Hash, Intake.Cancellation)).ShouldBe("The comment is missing; it is kept with the record.");
        (await decide.RunAsync(owner, proposal, true, "agreed", "0000", Intake.Cancellation))!.ShouldContain("not what was proposed");
        (await decide.RunAsync(owner, proposal, true, "Agreed by letter SH-OR-09.", worked.Hash, Intake.Cancellation)).ShouldBeNull();
        (await LimitAsync(intake, owner)).ShouldBe(0.120);
        (await decide.RunAsync(owner, proposal, false, "no", worked.Hash, Intake.Cancellation))!.ShouldContain("was approved already");
        (await decide.RunAsync(owner, 999_999, true, "agreed", worked.Hash, Intake.Cancellation))!.ShouldContain("There is no proposal");
        await Should.ThrowAsync<AccessRefusedException>(() => decide.RunAsync(administrator, proposal, true, "mine", worked.Hash, Intake.Cancellation));

        HistoryPart told = await intake.Get<ReadHistory>().RunAsync(owner, new HistoryFilter(HistoryGroup.Settings, null, null, null), 0, 2, Intake.Cancellation);
        told.Entries.Select(entry => entry.What).ShouldBe(
            [$"The settings proposed in record {proposal} were approved and are in force.", "Settings proposed to the owner's representative: zones."]);
    }

    [Fact]
    public async Task A_proposal_that_others_overtook_has_nothing_left_to_decide()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        (Permit administrator, Permit owner) = (await intake.PermitAsync(Role.Administrator), await intake.PermitAsync(Role.OwnersRepresentative));
        SiteSettings was = (await intake.Get<ReadSettings>().RunAsync(administrator, Intake.Cancellation))!;
        (string limit, string name) = (Text(WithLimit(was, 0.120)), Text(was with { Name = "another name" }));
        ReviseSettings revise = intake.Get<ReviseSettings>();
        WorkedOutSettings first = (await revise.WorkOutAsync(administrator, limit, Intake.Cancellation))!, second = (await revise.WorkOutAsync(administrator, name, Intake.Cancellation))!;
        long proposal = (await revise.RecordAsync(administrator, limit, "tighter", first.Hash, first.InForceSince, Intake.Cancellation)).Sequence!.Value;
        long revision = (await revise.RecordAsync(administrator, name, "a better name", second.Hash, second.InForceSince, Intake.Cancellation)).Sequence!.Value;

        (await intake.Get<DecideSettings>().RunAsync(owner, proposal, true, "agreed", first.Hash, Intake.Cancellation))!.ShouldContain($"Record {revision} revised the settings");
        (await revise.RecordAsync(administrator, limit, "tighter", first.Hash, first.InForceSince, Intake.Cancellation)).Refusal!.ShouldContain($"Record {revision} revised the settings meanwhile");
    }

    [Theory]
    [InlineData("", "is not JSON from line 1 on")]
    [InlineData("null", "holds nothing; expected the settings of a site")]
    [InlineData("{\"code\": \"x\", \"colour\": 1}", "Settings file, colour (line 1): found 1; expected one of the members code, name")]
    [InlineData("code", "code: it stays")]
    [InlineData("crs", "projectedCrs: it stays 25832")]
    [InlineData("zone", "zones: at least one.")]
    [InlineData("timeZone", "timeZone: an IANA time zone, not 'Nowhere/Land'")]
    [InlineData("negative", "spacingMetres above 0")]
    public async Task What_cannot_come_into_force_says_which_value_and_what_was_expected(string what, string expected)
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit administrator = await intake.PermitAsync(Role.Administrator);
        SiteSettings was = (await intake.Get<ReadSettings>().RunAsync(administrator, Intake.Cancellation))!;
        string text = what switch
        {
            "code" => Text(was with { Code = "elsewhere" }),
            "crs" => Text(was with { ProjectedCrs = 25833 }),
            "zone" => Text(was with { Zones = [] }),
            "timeZone" => Text(was with { TimeZone = "Nowhere/Land" }),
            "negative" => Text(was with { Zones = [was.Zones[0] with { SpacingMetres = -1 }] }),
            _ => what,
        };

        WorkedOutSettings worked = (await intake.Get<ReviseSettings>().WorkOutAsync(administrator, text, Intake.Cancellation))!;

        worked.CanBeRecorded.ShouldBeFalse();
        string.Join(' ', worked.Problems).ShouldContain(expected);
        (await intake.Get<ReviseSettings>().RecordAsync(administrator, text, "why not", worked.Hash, worked.InForceSince, Intake.Cancellation)).Refusal.ShouldNotBeNull();
    }

    private static string Text(SiteSettings settings) => JsonSerializer.Serialize(settings, RecordJson.Options);

    private static SiteSettings WithLimit(SiteSettings was, double radialMetres)
        => was with { Zones = [was.Zones[0] with { Limits = was.Zones[0].Limits with { RadialMetres = radialMetres, Approval = "SH-OR-09" } }, .. was.Zones.Skip(1)] };

    private static async Task<double?> LimitAsync(Intake intake, Permit permit)
        => (await intake.Get<ReadSettings>().RunAsync(permit, Intake.Cancellation))!.Zones[0].Limits.RadialMetres;
}
