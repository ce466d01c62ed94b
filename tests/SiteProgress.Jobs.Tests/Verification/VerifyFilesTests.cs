using Npgsql;
using Shouldly;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Tests.RecordsIn;
using SiteProgress.Jobs.Verification;
using Xunit;

namespace SiteProgress.Jobs.Tests.Verification;

/// <summary>Files that records came in by, altered in the store by somebody with all rights.</summary>
public sealed class VerifyFilesTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    [Fact]
    public async Task A_file_altered_in_the_store_is_named_though_the_chain_holds()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit manager = await intake.PermitAsync(Role.ProjectManager);
        long batch = await intake.BringInAsync(manager, "design.csv", Intake.File("seed-data", "planned-piles-zone-a.csv"));
        (await VerifyAsync(intake)).ShouldBe(new FilesVerification(1, null));

        await TamperAsync("update record.upload_chunk set bytes = set_byte(bytes, 1000, 65) where site = (select site from record.site where code = $1)", intake.Code);

        (await intake.Get<VerifySite>().RunAsync(intake.Code, Intake.Cancellation))!.Sound.ShouldBeTrue();
        (await VerifyAsync(intake)).FirstBreak.ShouldBe($"The file of batch {batch}, design.csv, is not the one that was recorded: its bytes give another hash.");
    }

    [Fact]
    public async Task A_site_that_is_not_there_is_none()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        (await intake.Get<VerifyFiles>().RunAsync("no-such-site", Intake.Cancellation)).ShouldBeNull();
    }

    private static async Task<FilesVerification> VerifyAsync(Intake intake)
        => (await intake.Get<VerifyFiles>().RunAsync(intake.Code, Intake.Cancellation)).ShouldNotBeNull();

    private async Task TamperAsync(string sql, string code)
    {
        await using NpgsqlConnection connection = new(database.AdministratorConnectionString);
        await connection.OpenAsync(Intake.Cancellation);
        await using NpgsqlCommand command = new("set session_replication_role = replica", connection);
        await command.ExecuteNonQueryAsync(Intake.Cancellation);
        command.CommandText = sql;
        command.Parameters.AddWithValue(code);
        await command.ExecuteNonQueryAsync(Intake.Cancellation);
        command.Parameters.Clear();
        command.CommandText = "set session_replication_role = default";
        await command.ExecuteNonQueryAsync(Intake.Cancellation);
    }
}
