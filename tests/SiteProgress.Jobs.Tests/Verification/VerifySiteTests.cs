using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using Shouldly;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Verification;
using SiteProgress.Storage.Records;
using Xunit;

namespace SiteProgress.Jobs.Tests.Verification;

/// <summary>What a verification finds when somebody with all rights alters the store behind the product's back.</summary>
public sealed class VerifySiteTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private static readonly CancellationToken Now = TestContext.Current.CancellationToken;

    [Fact]
    public async Task An_untouched_site_is_sound_and_a_rebuild_finds_it_identical()
    {
        await using TestSite site = await FilledAsync();

        (await VerifyAsync(site)).Sound.ShouldBeTrue();
        IReadOnlyList<DerivedDifference> differences = (await site.Services.GetRequiredService<RebuildSite>().RunAsync(site.Code, Now))!;
        differences.Count.ShouldBeGreaterThanOrEqualTo(11);
        differences.ShouldAllBe(table => table.Identical);
    }

    [Fact]
    public async Task A_derived_row_altered_by_hand_is_found_and_mended_by_a_rebuild()
    {
        await using TestSite site = await FilledAsync();
        await TamperAsync(site, "update derived.pile set deviation_radial = 0.001 where site = (select site from record.site where code = '{0}') and number = 'A-0002'");

        SiteVerification verification = await VerifyAsync(site);
        verification.ChainBreak.ShouldBeNull();
        verification.Tables.Single(table => table.Table == "derived.pile").ShouldSatisfyAllConditions(
            table => table.Unfounded.ShouldBe(1), table => table.Absent.ShouldBe(1));

        await site.Services.GetRequiredService<RebuildSite>().RunAsync(site.Code, Now);
        (await VerifyAsync(site)).Sound.ShouldBeTrue();
    }

    [Fact]
    public async Task A_record_altered_by_a_superuser_breaks_the_chain_at_that_record()
    {
        await using TestSite site = await FilledAsync();
        await TamperAsync(site, "update record.site_record set body = convert_to(replace(convert_from(body, 'UTF8'), '71.5', '75.5'), 'UTF8') where site = (select site from record.site where code = '{0}') and sequence = 20");

        (await VerifyAsync(site)).ChainBreak!.Sequence.ShouldBe(20);
    }

    [Fact]
    public async Task A_record_taken_out_is_named()
    {
        await using TestSite site = await FilledAsync();
        await TamperAsync(site, "delete from record.site_record where site = (select site from record.site where code = '{0}') and sequence = 20");

        (await VerifyAsync(site)).ChainBreak!.Sequence.ShouldBe(20);
    }

    [Fact]
    public async Task The_last_records_cut_off_with_the_head_set_back_contradict_the_head_kept_outside()
    {
        await using TestSite site = await FilledAsync();
        await TamperAsync(site, "delete from record.site_record where site = (select site from record.site where code = '{0}') and sequence > 20");
        await TamperAsync(site, "update derived.site_state s set sequence = r.sequence, hash = r.hash from record.site_record r where r.site = s.site and r.sequence = 20 and s.site = (select site from record.site where code = '{0}')");

        SiteVerification verification = await VerifyAsync(site);
        verification.ChainBreak.ShouldBeNull();
        verification.HeadBreak.ShouldNotBeNull().ShouldContain("no longer there");
    }

    [Fact]
    public async Task A_record_altered_with_all_later_hashes_recomputed_contradicts_the_head_kept_outside()
    {
        await using TestSite site = await FilledAsync();
        await RecomputeAllHashesAfterAlteringAsync(site, 20);

        SiteVerification verification = await VerifyAsync(site);
        verification.ChainBreak.ShouldBeNull();
        verification.HeadBreak.ShouldNotBeNull().ShouldContain("altered");
    }

    private async Task<TestSite> FilledAsync()
    {
        TestSite site = await TestSite.OpenAsync(database);
        await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(8));
        await site.RecordAsync(Role.Surveyor, TestSite.BuiltRow(8));
        return site;
    }

    private static async Task<SiteVerification> VerifyAsync(TestSite site)
        => (await site.Services.GetRequiredService<VerifySite>().RunAsync(site.Code, Now)).ShouldNotBeNull();

    private async Task TamperAsync(TestSite site, string statement)
    {
        await using NpgsqlDataSource superuser = NpgsqlDataSource.Create(database.AdministratorConnectionString);
        await using NpgsqlConnection connection = await superuser.OpenConnectionAsync(Now);
        await using NpgsqlCommand command = new(
            $"set session_replication_role = replica; {string.Format(null, statement, site.Code)}; set session_replication_role = default", connection);
        (await command.ExecuteNonQueryAsync(Now)).ShouldBeGreaterThan(0);
    }

    private async Task RecomputeAllHashesAfterAlteringAsync(TestSite site, long sequence)
    {
        await using NpgsqlDataSource superuser = NpgsqlDataSource.Create(database.AdministratorConnectionString);
        await using NpgsqlConnection connection = await superuser.OpenConnectionAsync(Now);
        int key = await site.OneAsync<int>("select site from record.site where code = $1", site.Code);
        List<RecordEntry> records = [];
        await foreach (RecordEntry record in new RecordLog(connection, key).ReadAsync(0, Now)) records.Add(record);
        ChainHash previous = ChainHash.BeforeFirst;
        foreach (RecordEntry record in records)
        {
            byte[] body = record.Sequence == sequence
                ? System.Text.Encoding.UTF8.GetBytes(System.Text.Encoding.UTF8.GetString(record.Body.Span).Replace("71.5", "75.5", StringComparison.Ordinal))
                : record.Body.ToArray();
            previous = HashChain.Next(site.Code, record.Sequence, record.Kind, record.RecordedAt, record.RecordedBy, record.Batch, previous, body);
            await using NpgsqlCommand command = new(
                "update record.site_record set body = $3, hash = $4 where site = $1 and sequence = $2", connection);
            command.Parameters.AddWithValue(key);
            command.Parameters.AddWithValue(record.Sequence);
            command.Parameters.AddWithValue(body);
            command.Parameters.AddWithValue(previous.Bytes.ToArray());
            await using NpgsqlCommand replica = new("set session_replication_role = replica", connection);
            await replica.ExecuteNonQueryAsync(Now);
            await command.ExecuteNonQueryAsync(Now);
        }

        await using NpgsqlCommand head = new("update derived.site_state set hash = $2 where site = $1", connection);
        head.Parameters.AddWithValue(key);
        head.Parameters.AddWithValue(previous.Bytes.ToArray());
        await head.ExecuteNonQueryAsync(Now);
    }
}
