using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.Sites;
using SiteProgress.Jobs.Verification;
using Xunit;

namespace SiteProgress.Jobs.Tests.Recording;

public sealed class SiteRecorderTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private static readonly CancellationToken Now = TestContext.Current.CancellationToken;

    [Fact]
    public async Task What_was_recorded_stands_in_the_derived_tables_at_once()
    {
        await using TestSite site = await TestSite.OpenAsync(database);
        Permit permit = await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(10));
        await site.RecordAsync(Role.Surveyor, TestSite.BuiltRow(6));

        (await site.OneAsync<long>("select count(*) from derived.pile where site = $1", permit.Site)).ShouldBe(10);
        (await site.OneAsync<long>("select count(*) from derived.pile where site = $1 and state = $2", permit.Site, (short)PileState.Installed)).ShouldBe(6);
        (await site.OneAsync<double>("select deviation_radial from derived.pile where site = $1 and number = 'A-0003'", permit.Site)).ShouldBe(0.05, 1e-9);
        (await site.OneAsync<double>("select st_distance(design_place, as_built_place) from derived.pile where site = $1 and number = 'A-0003'", permit.Site)).ShouldBe(0.05, 1e-4);
        (await site.OneAsync<long>("select sum(piles) from derived.day_production where site = $1", permit.Site)).ShouldBe(6);
    }

    [Fact]
    public async Task The_sequence_has_no_gap_and_the_chain_holds_when_many_write_at_once()
    {
        await using TestSite site = await TestSite.OpenAsync(database);
        Permit permit = await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(40));

        await Parallel.ForEachAsync(Enumerable.Range(0, 8), Now, async (index, cancellation) =>
            await site.Services.GetRequiredService<SiteRecorder>().AppendAsync(
                permit,
                Right.BringIn,
                _ => TestSite.BuiltRow(5, "sender-" + index),
                cancellation));

        (await site.OneAsync<long>("select max(sequence) - count(*) from record.site_record where site = $1", permit.Site)).ShouldBe(0);
        SiteVerification verification = (await site.Services.GetRequiredService<VerifySite>().RunAsync(site.Code, Now))!;
        verification.Sound.ShouldBeTrue();
    }

    [Fact]
    public async Task Records_cannot_be_changed_removed_or_emptied_by_anyone()
    {
        await using TestSite site = await TestSite.OpenAsync(database);
        await using NpgsqlDataSource owner = NpgsqlDataSource.Create(database.OwnerConnectionString);
        await using NpgsqlDataSource web = NpgsqlDataSource.Create(database.WebConnectionString);
        foreach (string statement in new[]
        {
            "update record.site_record set recorded_by = 'x'", "delete from record.site_record", "truncate record.site_record cascade",
            "update record.site set code = 'x'", "delete from record.upload", "delete from record.upload_chunk",
        })
        {
            string state = (await Should.ThrowAsync<PostgresException>(() => RunAsync(web, statement))).SqlState;
            state.ShouldBeOneOf(PostgresErrorCodes.InsufficientPrivilege, PostgresErrorCodes.RestrictViolation);
            if (statement.Contains("upload", StringComparison.Ordinal)) continue;
            (await Should.ThrowAsync<PostgresException>(() => RunAsync(owner, statement))).SqlState.ShouldBe(PostgresErrorCodes.RestrictViolation);
        }

        (await Should.ThrowAsync<PostgresException>(() => RunAsync(web, "insert into record.site (code, opened_at) values ('planted', now())")))
            .SqlState.ShouldBe(PostgresErrorCodes.InsufficientPrivilege);
        (await Should.ThrowAsync<PostgresException>(() => RunAsync(web, "create table record.planted (x int)")))
            .SqlState.ShouldBe(PostgresErrorCodes.InsufficientPrivilege);
    }

    [Fact]
    public async Task No_foreign_key_runs_from_sites_to_accounts_and_none_cascades_there()
    {
        await using TestSite site = await TestSite.OpenAsync(database);

        (await site.OneAsync<long>("select count(*) from pg_constraint where contype = 'f' and connamespace::regnamespace::text in ('record', 'derived')")).ShouldBeGreaterThan(0);
        (await site.OneAsync<long>(
            """
            select count(*) from pg_constraint where contype = 'f' and connamespace::regnamespace::text in ('record', 'derived')
            and (confdeltype not in ('r', 'a') or (select relnamespace from pg_class where oid = confrelid)::regnamespace::text = 'account')
            """)).ShouldBe(0);
    }

    [Fact]
    public async Task Every_key_of_records_and_derived_state_begins_with_the_site()
    {
        await using TestSite site = await TestSite.OpenAsync(database);

        (await site.OneAsync<long>(
            """
            select count(*) from pg_constraint c join pg_attribute a on a.attrelid = c.conrelid and a.attnum = c.conkey[1]
            where c.contype = 'p' and c.connamespace::regnamespace::text in ('record', 'derived') and a.attname <> 'site'
            """)).ShouldBe(0);
    }

    [Fact]
    public async Task A_role_withdrawn_after_the_permit_was_made_records_nothing()
    {
        await using TestSite site = await TestSite.OpenAsync(database);
        Permit surveyor = await site.PermitAsync(Role.Surveyor);
        Permit administrator = await site.PermitAsync(Role.Administrator);
        (await site.Services.GetRequiredService<GrantRole>().WithdrawAsync(administrator, surveyor.Account, Now)).ShouldBeNull();
        long before = await site.OneAsync<long>("select max(sequence) from record.site_record where site = $1", surveyor.Site);

        await Should.ThrowAsync<AccessWithdrawnException>(() => site.Services.GetRequiredService<SiteRecorder>()
            .AppendAsync(surveyor, Right.BringIn, _ => TestSite.PlannedRow(2), Now));

        (await site.OneAsync<long>("select max(sequence) from record.site_record where site = $1", surveyor.Site)).ShouldBe(before);
        (await site.Services.GetRequiredService<Gate>().EnterAsync(surveyor.Account, site.Code, Now)).ShouldBeNull();
    }

    [Fact]
    public async Task A_withdrawn_batch_no_longer_counts_and_its_records_stay()
    {
        await using TestSite site = await TestSite.OpenAsync(database);
        Permit permit = await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(4));
        await site.RecordAsync(Role.Surveyor, TestSite.BuiltRow(4));
        long batch = await site.OneAsync<long>("select max(batch) from derived.batch where site = $1", permit.Site);

        await site.RecordAsync(Role.Surveyor, [new BatchWithdrawnBody(batch, "wrong barge")]);

        (await site.OneAsync<long>("select count(*) from derived.installation where site = $1", permit.Site)).ShouldBe(0);
        (await site.OneAsync<long>("select count(*) from derived.pile where site = $1 and state = 0", permit.Site)).ShouldBe(4);
        (await site.OneAsync<long>("select count(*) from record.site_record where site = $1 and batch = $2", permit.Site, batch)).ShouldBe(4);
        (await site.OneAsync<string>("select withdrawn_because from derived.batch where site = $1 and batch = $2", permit.Site, batch)).ShouldBe("wrong barge");
    }

    [Fact]
    public async Task The_order_in_which_batches_came_in_changes_no_pile()
    {
        await using TestSite first = await TestSite.OpenAsync(database);
        await using TestSite second = await TestSite.OpenAsync(database);
        Permit one = await first.RecordAsync(Role.Surveyor, TestSite.PlannedRow(10));
        await first.RecordAsync(Role.Surveyor, TestSite.BuiltRow(5, "a"));
        await first.RecordAsync(Role.Surveyor, [.. TestSite.BuiltRow(8, "b").Take(1), .. TestSite.BuiltRow(8, "b").Skip(6)]);
        Permit two = await second.RecordAsync(Role.Surveyor, [.. TestSite.BuiltRow(8, "b").Take(1), .. TestSite.BuiltRow(8, "b").Skip(6)]);
        await second.RecordAsync(Role.Surveyor, TestSite.BuiltRow(5, "a"));
        await second.RecordAsync(Role.Surveyor, TestSite.PlannedRow(10));

        const string Columns = "select string_agg(concat_ws('|', number, state, deviation_radial, sand_in_pile, working_day, barge, checks::text), ';' order by number) from derived.pile where site = $1";
        (await second.OneAsync<string>(Columns, two.Site)).ShouldBe(await first.OneAsync<string>(Columns, one.Site));
    }

    private static async Task RunAsync(NpgsqlDataSource store, string statement)
    {
        await using NpgsqlCommand command = store.CreateCommand(statement);
        await command.ExecuteNonQueryAsync();
    }
}
