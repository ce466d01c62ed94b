using System.Text;
using Shouldly;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.RecordsIn;
using Xunit;

namespace SiteProgress.Jobs.Tests.RecordsIn;

/// <summary>
/// The twenty bad files on their whole way: kept, looked at, recorded. Each ends in a message with its line or in a right
/// reading, and nothing enters by halves.
/// </summary>
public sealed class BadFileTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    /// <summary>File, good rows, lines left out, and what the preview must say.</summary>
    public static TheoryData<string, int, long[], string> Files => new()
    {
        { "02-binary.csv", 0, [], "this is not text at all" },
        { "03-wrong-delimiter.csv", 0, [], "parted by comma, semicolon or tab" },
        { "04-missing-column.csv", 0, [], "a column \u201CZone\u201D; the header on line 1 has none" },
        { "05-decimal-commas-between-commas.csv", 0, [2, 3, 4, 5, 6], "as where decimal commas stand in a file with commas as delimiter" },
        { "06-semicolons-and-decimal-commas.csv", 5, [], "semicolon as delimiter, decimal comma" },
        { "07-byte-order-mark.csv", 5, [], "UTF-8 with byte order mark" },
        { "08-utf-16.csv", 5, [], "UTF-16, little end first" },
        { "09-swapped-axes.csv", 5, [], "5 of these lie on the site when first and second coordinate are swapped" },
        { "10-text-in-a-number.csv", 2, [3, 4], "Line 4, column X: found \u201Cabout 1006\u201D" },
        { "11-ten-digit-numbers.csv", 1, [3], "this looks like millimetres" },
        { "12-duplicate-numbers.csv", 3, [4], "each pile number once; line 2 has it already" },
        { "13-unknown-zone.csv", 1, [3], "a zone of this site: A, B, C" },
        { "14-dates-in-three-styles.csv", 4, [], "Dates with slashes have the month first, as some of them prove." },
        { "15-year-1900.csv", 1, [2], "a time after 1990" },
        { "16-nan.csv", 1, [2, 3, 4, 5], "Line 2, column X: found \u201CNaN\u201D" },
        { "18-formula-in-a-pile-number.csv", 1, [2, 3], "this begins like a spreadsheet formula" },
        { "19-html-in-a-pile-number.csv", 1, [2], "Line 2, column Pile No: found \u201C<img src=x onerror=alert(1)>\u201D" },
        { "20-line-cut-in-half.csv", 4, [6], "the file ends in this line and seems to be cut off" },
    };

    [Theory]
    [MemberData(nameof(Files))]
    public async Task Each_is_told_by_line_or_read_right_and_enters_whole_or_not_at_all(string name, int good, long[] leftOut, string said)
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit manager = await intake.PermitAsync(Role.ProjectManager);
        long before = await intake.RecordsAsync();
        Guid upload = await intake.SendAsync(manager, name, Intake.File("tests/sample-files/bad", name));

        UploadPreview preview = await intake.LookAsync(manager, upload);
        string[] sentences = [.. preview.Problems.Select(problem => problem.Sentence), .. preview.Assumptions, .. preview.Suspicions];
        string.Join('\n', sentences).ShouldContain(said);
        (preview.RowsGood, preview.MayRecord).ShouldBe((good, good > 0));
        preview.LinesLeftOut.ShouldBe(leftOut);

        RecordingResult unasked = await intake.RecordAsync(manager, upload);
        bool clean = good > 0 && leftOut.Length == 0;
        (unasked.Batch is not null).ShouldBe(clean);
        (await intake.RecordsAsync()).ShouldBe(clean ? before + 1 + good : before);
        if (clean) return;

        unasked.Refusal.ShouldNotBeNullOrWhiteSpace();
        RecordingResult decided = await intake.RecordAsync(manager, upload, leaveOutProblems: true);
        (decided.Batch is not null).ShouldBe(good > 0);
        (await intake.RecordsAsync()).ShouldBe(good > 0 ? before + 1 + good : before);
        if (good > 0) (await intake.OneAsync<long[]>("select lines_left_out from derived.batch b join record.site s on s.site = b.site where s.code = $1", intake.Code)).ShouldBe(leftOut);
    }

    [Fact]
    public async Task An_empty_file_is_not_kept()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit manager = await intake.PermitAsync(Role.ProjectManager);

        UploadResult stored = await intake.Get<StoreUpload>().RunAsync(manager, "01-empty.csv", new MemoryStream(), Intake.Cancellation);

        (stored.Upload, stored.Why).ShouldBe((null, UploadRefusal.Empty));
        stored.Refusal!.ShouldStartWith("The file is empty: it has no bytes at all.");
        (await intake.RecordsAsync()).ShouldBe(await intake.OneAsync<long>("select max(sequence) from record.site_record r join record.site s on s.site = r.site where s.code = $1", intake.Code));
    }

    [Fact]
    public async Task A_file_longer_than_the_limit_is_not_kept_in_any_part()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit manager = await intake.PermitAsync(Role.ProjectManager);
        StoreUpload small = Microsoft.Extensions.DependencyInjection.ActivatorUtilities.CreateInstance<StoreUpload>(
            intake.Services, new IntakeLimits { LargestFileBytes = 3 << 20 });

        UploadResult stored = await small.RunAsync(manager, "17-200-megabytes.csv", new MemoryStream(new byte[(3 << 20) + 1]), Intake.Cancellation);

        stored.Refusal.ShouldBe("The file is longer than 3 MB, the most this site takes in one file. Nothing was kept. Split it, or ask the operator to raise the limit.");
        (await intake.OneAsync<long>("select count(*) from record.upload u join record.site s on s.site = u.site where s.code = $1", intake.Code)).ShouldBe(0);
        (await intake.OneAsync<long>("select count(*) from record.upload_chunk c join record.site s on s.site = c.site where s.code = $1", intake.Code)).ShouldBe(0);
    }

    [Fact]
    public async Task A_full_quota_is_told_and_takes_no_further_file()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit manager = await intake.PermitAsync(Role.ProjectManager);
        StoreUpload small = Microsoft.Extensions.DependencyInjection.ActivatorUtilities.CreateInstance<StoreUpload>(
            intake.Services, new IntakeLimits { SiteQuotaBytes = 1 << 20 });

        (await small.RunAsync(manager, "first.csv", new MemoryStream(new byte[700_000]), Intake.Cancellation)).Upload.ShouldNotBeNull();
        UploadResult second = await small.RunAsync(manager, "second.csv", new MemoryStream(new byte[700_000]), Intake.Cancellation);

        second.Why.ShouldBe(UploadRefusal.QuotaFull);
        second.Refusal!.ShouldContain("this site's quota of 1 MB");
        (await intake.OneAsync<long>("select sum(octet_length(bytes)) from record.upload_chunk c join record.site s on s.site = c.site where s.code = $1", intake.Code)).ShouldBe(700_000);
    }

    [Theory]
    [InlineData("../../etc/passwd", "passwd")]
    [InlineData("C:\\files\\plan.csv", "plan.csv")]
    [InlineData("pl\u202Eana\u0000.csv\r\n", "plana.csv")]
    [InlineData("///", "without a name")]
    public async Task Of_a_file_name_the_last_part_is_kept_without_what_has_no_shape(string sent, string kept)
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit manager = await intake.PermitAsync(Role.ProjectManager);

        Guid upload = await intake.SendAsync(manager, sent, Encoding.UTF8.GetBytes("x"));

        (await intake.LookAsync(manager, upload)).FileName.ShouldBe(kept);
    }
}
