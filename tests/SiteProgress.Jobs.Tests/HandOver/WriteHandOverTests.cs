using System.IO.Compression;
using System.Text;
using Shouldly;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.HandOver;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Jobs.Tests.RecordsIn;
using SiteProgress.Jobs.Treatment;
using SiteProgress.TestSupport;
using Xunit;

namespace SiteProgress.Jobs.Tests.HandOver;

/// <summary>The hand-over package, unpacked and checked by general programs: unzip, sha256sum, Python and GDAL's ogrinfo.</summary>
public sealed class WriteHandOverTests(JobsDatabase database) : IClassFixture<JobsDatabase>, IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("siteprogress-package-").FullName;

    [Fact]
    public async Task A_package_holds_by_general_programs_and_the_same_records_give_the_same_bytes()
    {
        await using Intake intake = await BuiltAsync();
        Permit owner = await AcceptedAsync(intake);
        HandOverPackage package = await UnpackAsync(intake, owner);

        (await RunAsync("sha256sum", "--check", "--quiet", "sha256sums.txt")).Status.ShouldBe(0);
        CommandResult check = await RunAsync("python3", "check.py");
        check.Problems.ShouldBeEmpty();
        check.Output.ShouldContain("chain holds");
        check.Output.ShouldContain($"head: {package.Head}\n");
        check.Output.ShouldContain("files: 2, as recorded");
        check.Output.ShouldContain("signed sheets: 1, as signed");
        HandOverPackage again = (await intake.Get<WriteHandOver>().RunAsync(owner, package.Sequence, Intake.Cancellation)).ShouldNotBeNull();
        await using Stream bytes = again.Bytes;
        again.Sha256.ShouldBe(package.Sha256);
    }

    [Theory]
    [InlineData("records/records.jsonl", "does not give the hash kept with it")]
    [InlineData("files", "is not the file that record")]
    [InlineData("sheets", "is not the one that was signed")]
    public async Task One_altered_byte_is_found_by_the_script_of_the_package(string where, string said)
    {
        await using Intake intake = await BuiltAsync();
        await UnpackAsync(intake, await AcceptedAsync(intake));
        string file = Path.Combine(_folder, where) is var path && Directory.Exists(path) ? SignedOrFirst(where, path) : path;
        byte[] bytes = await File.ReadAllBytesAsync(file, Intake.Cancellation);
        // A digit in the middle, so that text stays text.
        int place = Array.FindIndex(bytes, bytes.Length / 2, value => value is >= (byte)'0' and <= (byte)'8');
        bytes[place]++;
        await File.WriteAllBytesAsync(file, bytes, Intake.Cancellation);

        CommandResult check = await RunAsync("python3", "check.py");

        check.Status.ShouldBe(1);
        check.Output.ShouldContain("DOES NOT HOLD");
        check.Output.ShouldContain(said);
    }

    [Fact]
    public async Task A_pile_that_got_another_number_after_it_was_signed_is_checked_by_the_sheet_under_its_old_one()
    {
        await using Intake intake = await BuiltAsync();
        Permit owner = await AcceptedAsync(intake);
        string number = await intake.OneAsync<string>("select p.number from derived.pile p join record.site s on s.site = p.site where s.code = $1 and p.state = 5", intake.Code);
        string design = Encoding.UTF8.GetString(Intake.File("seed-data", "planned-piles-zone-a.csv"));
        byte[] renumbered = Encoding.UTF8.GetBytes(string.Join('\n', design.Split('\n').Take(400)).Replace(number + ",", "A-8001,", StringComparison.Ordinal));
        Permit manager = await intake.PermitAsync(Role.ProjectManager);
        UploadChoices whole = UploadChoices.AsTheFileSays with { Design = new DesignChoice(Core.Records.DesignScope.Zones) };
        (await intake.RecordAsync(manager, await intake.SendAsync(manager, "renumbered.csv", renumbered), choices: whole)).Refusal.ShouldBeNull();

        await UnpackAsync(intake, owner);

        (await File.ReadAllTextAsync(Path.Combine(_folder, "sheets", "A-8001.txt"), Intake.Cancellation)).ShouldContain($"pile {number}\n");
        (await RunAsync("python3", "check.py")).Output.ShouldContain("signed sheets: 1, as signed");
    }

    [Fact]
    public async Task The_drawing_and_the_map_file_are_read_by_another_program()
    {
        await using Intake intake = await BuiltAsync();
        await UnpackAsync(intake, await intake.PermitAsync(Role.Surveyor));
        int standing = Directory.GetFiles(Path.Combine(_folder, "sheets")).Length;
        standing.ShouldBeGreaterThan(10);

        foreach ((string layer, int count) in new[] { ("AS-BUILT", standing), ("DEVIATION", standing) })
            (await RunAsync("ogrinfo", "-ro", "-so", "-al", "-where", $"Layer = '{layer}'", "as-built.dxf")).Output.ShouldContain($"Feature Count: {count}");
        (await RunAsync("ogrinfo", "-ro", "-so", "-al", "as-built.geojson")).Output.ShouldContain($"Feature Count: {standing}");
    }

    [Fact]
    public async Task The_state_after_an_earlier_record_can_be_packed_again_and_a_later_one_is_none()
    {
        await using Intake intake = await BuiltAsync();
        Permit surveyor = await intake.PermitAsync(Role.Surveyor);
        long records = await intake.RecordsAsync();
        WriteHandOver write = intake.Get<WriteHandOver>();

        HandOverPackage before = (await write.RunAsync(surveyor, 5, Intake.Cancellation)).ShouldNotBeNull();
        await using Stream bytes = before.Bytes;

        before.Sequence.ShouldBe(5);
        (await write.RunAsync(surveyor, records + 1, Intake.Cancellation)).ShouldBeNull();
        (await write.RunAsOperatorAsync("no-such-site", Intake.Cancellation)).ShouldBeNull();
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private async Task<Intake> BuiltAsync()
    {
        Intake intake = await Intake.OpenAsync(database);
        Permit manager = await intake.PermitAsync(Role.ProjectManager);
        string[] design = Encoding.UTF8.GetString(Intake.File("seed-data", "planned-piles-zone-a.csv")).Split('\n');
        await intake.BringInAsync(manager, "../design (1).CSV", Encoding.UTF8.GetBytes(string.Join('\n', design.Take(400))));
        string built = Path.Combine(Checkout.Folder, "seed-data", "as-built", "2026-03-14-tern.csv");
        RecordingResult recorded = await intake.RecordAsync(manager, await intake.SendAsync(manager, Path.GetFileName(built), await File.ReadAllBytesAsync(built, Intake.Cancellation)), leaveOutProblems: true);
        recorded.Batch.ShouldNotBeNull(recorded.Refusal);
        return intake;
    }

    private static async Task<Permit> AcceptedAsync(Intake intake)
    {
        Permit owner = await intake.PermitAsync(Role.OwnersRepresentative);
        string number = await intake.OneAsync<string>(
            "select min(p.number) from derived.pile p join record.site s on s.site = p.site where s.code = $1 and p.state in (1, 2)", intake.Code);
        string seen = (await intake.Get<ReadPileTreatment>().RunAsync(owner, number, Intake.Cancellation)).ShouldNotBeNull().Hash.ShouldNotBeNull();
        (await intake.Get<AcceptPiles>().OneAsync(owner, number, "seen on its sheet", seen, Intake.Cancellation)).Refusal.ShouldBeNull();
        return owner;
    }

    private async Task<HandOverPackage> UnpackAsync(Intake intake, Permit permit)
    {
        HandOverPackage package = (await intake.Get<WriteHandOver>().RunAsync(permit, null, Intake.Cancellation)).ShouldNotBeNull();
        await using (package.Bytes)
        {
            using ZipArchive archive = new(package.Bytes, ZipArchiveMode.Read);
            archive.ExtractToDirectory(_folder);
        }

        return package;
    }

    /// <summary>The first sheet that was signed, or the first raw file.</summary>
    private string SignedOrFirst(string where, string folder)
    {
        if (where != "sheets") return Directory.GetFiles(folder).Order(StringComparer.Ordinal).First();
        string[] lines = File.ReadAllLines(Path.Combine(_folder, "tables", "as-built.csv"));
        string signed = lines.Skip(1).First(line => line.Contains(",accepted,", StringComparison.Ordinal)).Split(',')[0];
        return Path.Combine(folder, signed + ".txt");
    }

    private Task<CommandResult> RunAsync(string program, params string[] arguments)
        => Command.RunAsync(program, arguments, folder: _folder, cancellation: Intake.Cancellation);
}
