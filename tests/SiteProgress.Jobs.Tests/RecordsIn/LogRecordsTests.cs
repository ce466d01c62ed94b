using System.Globalization;
using System.Text;
using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using Shouldly;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Attachments;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Jobs.Verification;
using Xunit;

namespace SiteProgress.Jobs.Tests.RecordsIn;

/// <summary>Logs come in through the same door as all records, are joined to their installation, judged by, and withdrawn like any batch.</summary>
public sealed class LogRecordsTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private const string Plan = "Pile No,Zone,X [m],Y [m]\nA-1,A,1000.0,2000.0\nA-2,A,1002.1,2000.0\n";
    private static readonly DateTime Start = new(2026, 4, 1, 6, 0, 0, DateTimeKind.Utc);

    [Fact]
    public async Task A_recorded_log_is_joined_and_its_pile_is_judged_by_it_until_it_is_withdrawn()
    {
        await using Intake intake = await OpenAsync();
        Permit surveyor = await intake.PermitAsync(Role.Surveyor);
        Guid upload = await intake.SendAsync(surveyor, "log.csv", Bytes(PlainLog.Header + PlainLog.Rows("L-1", "A-1", Start, -28.1, 16)));
        UploadPreview preview = await intake.LookAsync(surveyor, upload);
        preview.Suspicions.ShouldBeEmpty();
        preview.FirstRows.ShouldHaveSingleItem().Log.ShouldBe(new LogLine(LogJoinOutcome.Joined, preview.FirstRows[0].Log!.Installation, null, "A-1"));

        long batch = (await intake.RecordAsync(surveyor, upload)).Batch.ShouldNotBeNull();
        BatchRead read = (await intake.Get<ReadBatch>().RunAsync(surveyor, batch, waitingOnly: false, 0, 10, Intake.Cancellation)).ShouldNotBeNull();
        read.Rows.ShouldHaveSingleItem().Log!.Outcome.ShouldBe(LogJoinOutcome.Joined);
        CheckResult diameter = await CheckAsync(intake, "A-1", CheckName.LeastDiameter);
        // Withdrawn 3.6 m in a casing of 1.2 m for each metre: sqrt(4 x 1.13097 x 3.6 x C / pi) with C of the zone's sand, 0.82.
        diameter.Verdict.ShouldBe(Verdict.Met);
        diameter.Value!.Value.ShouldBe(Math.Sqrt(1.2 * 1.2 * 3.6 * 0.82), 0.03);
        (await CheckAsync(intake, "A-1", CheckName.Continuity)).Verdict.ShouldBe(Verdict.Met);
        (await CheckAsync(intake, "A-2", CheckName.LeastDiameter)).Verdict.ShouldBe(Verdict.NotJudged);
        PileLogView view = (await intake.Get<ReadPileLog>().RunAsync(surveyor, "A-1", Intake.Cancellation)).View.ShouldNotBeNull();
        (view.Counts, view.FileName, view.Reading.Cycles.Count).ShouldBe((true, "log.csv", 16));

        (await intake.Get<WithdrawBatch>().RunAsync(surveyor, batch, "another day's file", Intake.Cancellation)).ShouldBeNull();
        (await CheckAsync(intake, "A-1", CheckName.LeastDiameter)).Reason.ShouldBe("There is no log of the sand along the pile.");
        (await intake.Get<ReadPileLog>().RunAsync(surveyor, "A-1", Intake.Cancellation)).View.ShouldBeNull();
    }

    [Fact]
    public async Task A_gap_that_no_later_pass_closed_is_a_finding_of_its_pile()
    {
        await using Intake intake = await OpenAsync();
        Permit surveyor = await intake.PermitAsync(Role.Surveyor);
        await intake.BringInAsync(surveyor, "log.csv", Bytes(PlainLog.Header + PlainLog.Rows("L-1", "A-1", Start, -28.1, 16, hangAt: 7)));

        CheckResult gap = await CheckAsync(intake, "A-1", CheckName.Continuity);
        gap.Verdict.ShouldBe(Verdict.NotMet);
        gap.Value!.Value.ShouldBe(1, 0.15);
        (await intake.OneAsync<string>("select findings from derived.pile p join record.site s on s.site = p.site where s.code = $1 and number = 'A-1'", intake.Code)).Split(' ').ShouldContain("Continuity");
    }

    [Fact]
    public async Task A_log_that_names_another_pile_is_kept_shown_and_joined_to_none()
    {
        await using Intake intake = await OpenAsync();
        Permit surveyor = await intake.PermitAsync(Role.Surveyor);
        Guid upload = await intake.SendAsync(surveyor, "log.csv", Bytes(PlainLog.Header + PlainLog.Rows("L-1", "A-2", Start, -28.1, 16)));
        (await intake.LookAsync(surveyor, upload)).Suspicions.ShouldHaveSingleItem().ShouldContain("1 of 1 logs name another pile than the installation of their barge, casing and time");
        (await intake.RecordAsync(surveyor, upload)).Batch.ShouldNotBeNull();

        (await CheckAsync(intake, "A-1", CheckName.LeastDiameter)).Verdict.ShouldBe(Verdict.NotJudged);
        PileLogAnswer answer = await intake.Get<ReadPileLog>().RunAsync(surveyor, "A-1", Intake.Cancellation);
        answer.View.ShouldBeNull();
        answer.NotJoined.ShouldHaveSingleItem().ShouldContain("but names pile A-2");
    }

    [Fact]
    public async Task A_file_of_many_logs_is_one_batch_and_a_log_without_its_barge_is_a_problem_by_its_line()
    {
        await using Intake intake = await OpenAsync();
        Permit surveyor = await intake.PermitAsync(Role.Surveyor);
        string second = PlainLog.Rows("L-2", "A-2", Start.AddHours(1), -28.1, 16);
        Guid upload = await intake.SendAsync(surveyor, "day.csv", Bytes(PlainLog.Header + PlainLog.Rows("L-1", "A-1", Start, -28.1, 16) + second.Replace(",Tern,", ",,", StringComparison.Ordinal)));

        UploadPreview preview = await intake.LookAsync(surveyor, upload);
        (preview.RowsRead, preview.RowsGood, preview.ProblemCount).ShouldBe((2, 1, 1));
        preview.Problems[0].ShouldSatisfyAllConditions(problem => problem.Column.ShouldBe("Barge"), problem => problem.Line.ShouldBe(preview.LinesLeftOut[0]));

        await intake.BringInAsync(surveyor, "both.csv", Bytes(PlainLog.Header + PlainLog.Rows("L-1", "A-1", Start, -28.1, 16) + second));
        (await CheckAsync(intake, "A-2", CheckName.LeastDiameter)).Verdict.ShouldBe(Verdict.Met);
        (await intake.OneAsync<long>("select count(*) from record.log_samples l join record.site s on s.site = l.site where s.code = $1", intake.Code)).ShouldBe(2);
    }

    [Fact]
    public async Task What_follows_from_logs_is_the_same_made_anew_and_altered_samples_are_found()
    {
        await using Intake intake = await OpenAsync();
        Permit surveyor = await intake.PermitAsync(Role.Surveyor);
        await intake.BringInAsync(surveyor, "log.csv", Bytes(PlainLog.Header + PlainLog.Rows("L-1", "A-1", Start, -28.1, 16)));

        (await ActivatorUtilities.CreateInstance<VerifySite>(intake.Services).RunAsync(intake.Code, Intake.Cancellation))!.Sound.ShouldBeTrue();
        VerifyFiles files = ActivatorUtilities.CreateInstance<VerifyFiles>(intake.Services);
        (await files.RunAsync(intake.Code, Intake.Cancellation))!.FirstBreak.ShouldBeNull();
        await AlterAsync(intake.Code);
        (await files.RunAsync(intake.Code, Intake.Cancellation))!.FirstBreak!.ShouldContain("another hash");
    }

    [Fact]
    public async Task A_log_from_a_later_moment_of_the_barge_counts_once_its_installation_is_recorded()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        await intake.BringInAsync(await intake.PermitAsync(Role.ProjectManager), "plan.csv", Bytes(Plan));
        Permit surveyor = await intake.PermitAsync(Role.Surveyor);
        await intake.BringInAsync(surveyor, "log.csv", Bytes(PlainLog.Header + PlainLog.Rows("L-1", "A-1", Start, -28.1, 16)));
        await intake.BringInAsync(surveyor, "built.csv", Built());

        (await CheckAsync(intake, "A-1", CheckName.LeastDiameter)).Verdict.ShouldBe(Verdict.Met);
    }

    private async Task<Intake> OpenAsync()
    {
        Intake intake = await Intake.OpenAsync(database);
        await intake.BringInAsync(await intake.PermitAsync(Role.ProjectManager), "plan.csv", Bytes(Plan));
        await intake.BringInAsync(await intake.PermitAsync(Role.Surveyor), "built.csv", Built());
        return intake;
    }

    private static byte[] Built() => Bytes(
        "Record,Pile No,Barge,Casing,Start,End penetration,End,X end [m],Y end [m],Top level [m],Tip level [m],Sand in casing [m3],Inclination [deg],Fix,Outcome\n"
        + Row("R1", "A-1", 1000, Start) + Row("R2", "A-2", 1002.1, Start.AddHours(1)));

    private static string Row(string record, string pile, double x, DateTime start)
        => string.Create(CultureInfo.InvariantCulture, $"{record},{pile},Tern,1,{start:s}Z,{start.AddSeconds(440):s}Z,{start.AddMinutes(37):s}Z,{x},2000,-12.1,-28.1,65.1,0.3,RTK fixed,complete\n");

    private static async Task<CheckResult> CheckAsync(Intake intake, string pile, CheckName check)
        => JsonSerializer.Deserialize<CheckResult[]>(
            await intake.OneAsync<string>("select checks::text from derived.pile p join record.site s on s.site = p.site where s.code = $1 and number = $2", intake.Code, pile), RecordJson.Options)!
            .Single(one => one.Check == check);

    /// <summary>As an attacker with the owner's rights would: another log's bytes under a hash, the guard taken off.</summary>
    private async Task AlterAsync(string code)
    {
        await using NpgsqlConnection connection = new(database.OwnerConnectionString);
        await connection.OpenAsync(Intake.Cancellation);
        using MemoryStream packed = new();
        using (System.IO.Compression.DeflateStream deflate = new(packed, System.IO.Compression.CompressionLevel.Optimal)) deflate.Write("siteprogress log 1\n"u8);
        await using NpgsqlCommand command = new(
            """
            alter table record.log_samples disable trigger only_added;
            update record.log_samples l set packed = $1 from record.site s where s.site = l.site and s.code = $2;
            alter table record.log_samples enable trigger only_added;
            """.Replace("$1", "decode('" + Convert.ToHexString(packed.ToArray()) + "', 'hex')", StringComparison.Ordinal).Replace("$2", $"'{code}'", StringComparison.Ordinal),
            connection);
        await command.ExecuteNonQueryAsync(Intake.Cancellation);
    }

    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);
}
