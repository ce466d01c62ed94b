using System.Text;
using Shouldly;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.RecordsIn;
using Xunit;

namespace SiteProgress.Jobs.Tests.RecordsIn;

/// <summary>What a person sees before deciding, held against what recording then does.</summary>
public sealed class PreviewTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private const string Plan = "Pile No,Zone,X [m],Y [m]\nA-1,A,1000.0,2000.0\nA-2,A,1002.1,2000.0\nA-3,A,1004.2,2000.0\nA-4,A,1006.3,2000.0\n";
    private const string Header = "Record,Pile No,Barge,Casing,Start,End,X end [m],Y end [m],Top level [m],Tip level [m],Fix,Outcome\n";

    [Fact]
    public async Task What_recording_would_do_is_what_recording_does()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit manager = await intake.PermitAsync(Role.ProjectManager);
        await intake.BringInAsync(manager, "plan.csv", Bytes(Plan));
        Guid upload = await intake.SendAsync(manager, "built.csv", Bytes(Header
            + Row("R1", "A-1", 1000.05, 2000.0)      // 50 mm off: its pile
            + Row("R2", "A-3", 1002.1, 2000.02)      // numbers of two neighbours swapped
            + Row("R3", "A-2", 1004.2, 2000.02)
            + Row("R4", "Z-9", 1006.3, 2000.01)      // no such number
            + Row("R5", "A-4", 1060.0, 2000.0)));    // nothing planned there

        UploadPreview preview = await intake.LookAsync(manager, upload);
        preview.Matches.ShouldBe(
            new Dictionary<MatchOutcome, int>
            {
                [MatchOutcome.Matched] = 1,
                [MatchOutcome.SwappedNumbers] = 2,
                [MatchOutcome.UnknownNumber] = 1,
                [MatchOutcome.NothingPlannedWithinReach] = 1,
            }, ignoreOrder: true);
        preview.Suspicions.ShouldBe(["Pile numbers look swapped, each record lies at the pile the other one names: A-3 (line 3) and A-2 (line 4)."]);
        preview.FirstRows.Select(row => row.Match!.Nearest).ShouldBe(["A-1", "A-2", "A-3", "A-4", null]);

        long batch = (await intake.RecordAsync(manager, upload)).Batch!.Value;
        BatchRead read = (await intake.Get<ReadBatch>().RunAsync(manager, batch, waitingOnly: false, 0, 10, Intake.Cancellation)).ShouldNotBeNull();
        read.Matches.ShouldBe(preview.Matches, ignoreOrder: true);
        read.Rows.Select(row => (row.Line, row.Match!.Outcome, row.Match.Adopted)).ShouldBe(preview.FirstRows.Select(row => (row.Line, row.Match!.Outcome, row.Match.Adopted)));
        read.Summary.Waiting.ShouldBe(4);
        (await intake.Get<ReadBatch>().RunAsync(manager, batch, waitingOnly: true, 0, 10, Intake.Cancellation))!.Rows.Select(row => row.Line).ShouldBe([3, 4, 5, 6]);
    }

    [Fact]
    public async Task The_same_file_is_not_recorded_twice_until_it_is_withdrawn()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit manager = await intake.PermitAsync(Role.ProjectManager);
        long batch = await intake.BringInAsync(manager, "plan.csv", Bytes(Plan));
        Guid again = await intake.SendAsync(manager, "renamed.csv", Bytes(Plan));
        long before = await intake.RecordsAsync();

        UploadPreview preview = await intake.LookAsync(manager, again);
        (preview.AlreadyRecorded, preview.MayRecord).ShouldBe((batch, false));
        (await intake.RecordAsync(manager, again)).Refusal.ShouldBe(preview.WhyNot);
        (await intake.RecordsAsync()).ShouldBe(before);

        (await intake.Get<WithdrawBatch>().RunAsync(manager, batch, "wrong revision", Intake.Cancellation)).ShouldBeNull();
        (await intake.LookAsync(manager, again)).MayRecord.ShouldBeTrue();
        (await intake.RecordAsync(manager, again)).Batch.ShouldNotBeNull();
    }

    [Fact]
    public async Task A_changed_design_is_the_managers_to_record_and_check_measurements_the_surveyors()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit manager = await intake.PermitAsync(Role.ProjectManager);
        Permit surveyor = await intake.PermitAsync(Role.Surveyor);
        await intake.BringInAsync(surveyor, "plan.csv", Bytes(Plan));
        byte[] moved = Bytes(Plan.Replace("1002.1", "1002.2", StringComparison.Ordinal) + "A-5,A,1008.4,2000.0\n");
        byte[] checks = Intake.File("seed-data", "check-measurements.csv");

        UploadPreview forSurveyor = await intake.LookAsync(surveyor, await intake.SendAsync(surveyor, "moved.csv", moved));
        forSurveyor.Design.ShouldBe(new DesignChange(Added: 1, Changed: 1, Unchanged: 3));
        forSurveyor.WhyNot.ShouldBe("The file changes the design of 1 piles; a design revision is the project manager's to record.");
        (await intake.LookAsync(manager, await intake.SendAsync(manager, "moved.csv", moved))).MayRecord.ShouldBeTrue();

        UploadPreview forManager = await intake.LookAsync(manager, await intake.SendAsync(manager, "checks.csv", checks));
        forManager.WhyNot.ShouldBe("Check measurements, calibrations, water levels and seabed surveys are the surveyor's to record.");
        (await intake.RecordAsync(manager, forManager.Upload)).Refusal.ShouldBe(forManager.WhyNot);
        (await intake.LookAsync(surveyor, forManager.Upload)).MayRecord.ShouldBeTrue();
    }

    [Fact]
    public async Task A_file_in_another_frame_than_it_says_is_suspected_before_any_pile_is_planned()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit manager = await intake.PermitAsync(Role.ProjectManager);
        Guid upload = await intake.SendAsync(manager, "plan.csv", Bytes("Pile No,Zone,X [m],Y [m]\nA-1,A,392796.6,6162897.2\nA-2,A,392798.4,6162896.0\n"));

        UploadPreview asWritten = await intake.LookAsync(manager, upload);
        asWritten.Suspicions.ShouldHaveSingleItem().ShouldContain("2 of these lie on the site when taken as easting and northing of the projected CRS");

        UploadPreview asChosen = await intake.LookAsync(manager, upload, new UploadChoices(null, Frame.ProjectedCrs, null));
        asChosen.Suspicions.ShouldBeEmpty();
        asChosen.FirstRows.Select(row => ((PilePlannedBody)row.Body).Pile.Position.Frame).ShouldAllBe(frame => frame == Frame.ProjectedCrs);
    }

    [Fact]
    public async Task A_withdrawal_says_beforehand_what_it_then_changes()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit manager = await intake.PermitAsync(Role.ProjectManager);
        await intake.BringInAsync(manager, "plan.csv", Bytes(Plan));
        long batch = await intake.BringInAsync(manager, "built.csv", Bytes(Header + Row("R1", "A-1", 1000.05, 2000.0) + Row("R2", "A-2", 1002.15, 2000.0)));

        WithdrawalEffect effect = (await intake.Get<SupposeWithdrawal>().RunAsync(manager, batch, Intake.Cancellation)).ShouldNotBeNull();
        (effect.Rows, effect.PilesGone).ShouldBe((2, 0));
        PileStateChange change = effect.StateChanges.ShouldHaveSingleItem();
        (change.To, change.Piles).ShouldBe((PileState.Outstanding, 2));
        (await PilesInStateAsync(intake, change.From)).ShouldBe(2);

        (await intake.Get<WithdrawBatch>().RunAsync(manager, batch, "", Intake.Cancellation)).ShouldNotBeNull();
        (await PilesInStateAsync(intake, PileState.Outstanding)).ShouldBe(2);
        (await intake.Get<WithdrawBatch>().RunAsync(manager, batch, "levels without the tide", Intake.Cancellation)).ShouldBeNull();
        (await PilesInStateAsync(intake, PileState.Outstanding)).ShouldBe(4);

        BatchRead read = (await intake.Get<ReadBatch>().RunAsync(manager, batch, waitingOnly: false, 0, 10, Intake.Cancellation)).ShouldNotBeNull();
        read.Summary.Withdrawal!.Reason.ShouldBe("levels without the tide");
        read.Summary.Withdrawal.By.ShouldBe("Someone Invented");
        read.Rows.Select(row => row.Line).ShouldBe([2, 3]);
        (await intake.Get<SupposeWithdrawal>().RunAsync(manager, batch, Intake.Cancellation)).ShouldBeNull();
    }

    [Fact]
    public async Task The_file_comes_back_byte_by_byte_and_the_list_says_who_and_what()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit manager = await intake.PermitAsync(Role.ProjectManager);
        Permit owner = await intake.PermitAsync(Role.OwnersRepresentative);
        byte[] sent = Intake.File("tests/sample-files/bad", "08-utf-16.csv");
        long batch = await intake.BringInAsync(manager, "plan.csv", sent);
        await intake.SendAsync(manager, "not yet.csv", Bytes(Plan));

        RawFile raw = (await intake.Get<OpenRawFile>().RunAsync(owner, batch, Intake.Cancellation)).ShouldNotBeNull();
        await using MemoryStream back = new();
        await using (raw.Bytes) await raw.Bytes.CopyToAsync(back, Intake.Cancellation);
        back.ToArray().ShouldBe(sent);

        RecordsInList list = await intake.Get<ReadBatches>().RunAsync(manager, Intake.Cancellation);
        BatchSummary summary = list.Batches.ShouldHaveSingleItem();
        (summary.Batch, summary.FileName, summary.Content, summary.RowsRecorded, summary.RecordedBy).ShouldBe((batch, "plan.csv", BatchContent.PlannedPiles, 5, "Someone Invented"));
        list.Unrecorded.ShouldHaveSingleItem().FileName.ShouldBe("not yet.csv");
        (await intake.Get<ReadBatches>().RunAsync(owner, Intake.Cancellation)).Unrecorded.ShouldBeEmpty();
    }

    private static Task<long> PilesInStateAsync(Intake intake, PileState state)
        => intake.OneAsync<long>("select count(*) from derived.pile p join record.site s on s.site = p.site where s.code = $1 and p.state = $2", intake.Code, (short)state);

    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);

    private static string Row(string record, string pile, double x, double y) => FormattableString.Invariant(
        $"{record},{pile},Tern,1,2026-03-10T08:00:00,2026-03-10T08:40:00,{x:0.000},{y:0.000},-12.5,-28.2,RTK fixed,complete\n");
}
