using System.Text;
using Shouldly;
using SiteProgress.Core.Design;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Design;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Jobs.Tests.RecordsIn;
using SiteProgress.Jobs.Treatment;
using Xunit;

namespace SiteProgress.Jobs.Tests.Design;

/// <summary>A schedule that revises a design of which a part is built: shown before it is recorded, and answered by two people.</summary>
public sealed class RevisedScheduleTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private const string Head = "Pile No,Zone,X [m],Y [m],Diameter [m],Top level [m],Tip level [m],Min length [m],Remark\n";
    private const string Moved = "A-0001,A,1000.400,2000.000,2.00,-12.50,-28.00,15.0,set out from CP-1\n";
    private const string Added = "A-9001,A,1000.000,1990.000,2.00,-12.50,-28.00,15.0,\n";

    [Fact]
    public async Task What_a_schedule_moves_and_adds_is_shown_before_it_is_recorded_and_marks_the_built_pile_afterwards()
    {
        await using Intake intake = await BuiltAsync();
        Permit manager = await intake.PermitAsync(Role.ProjectManager);
        Guid upload = await intake.SendAsync(manager, "revision-b.csv", Encoding.UTF8.GetBytes(Head + Moved + Added));

        UploadPreview preview = await intake.LookAsync(manager, upload);

        DesignComparison comparison = preview.Difference.ShouldNotBeNull();
        comparison.Difference.Lines.Select(line => (line.Number, line.Kind)).ShouldBe([("A-0001", DesignChangeKind.Moved), ("A-9001", DesignChangeKind.Added)]);
        comparison.Difference.Lines[0].Shift!.Value.RadialMetres.ShouldBe(0.4, 1e-9);
        comparison.Built.ShouldBe(["A-0001"]);
        (await intake.RecordAsync(manager, upload)).Refusal.ShouldBeNull();
        ReadDesign.View design = await intake.Get<ReadDesign>().RunAsync(manager, Intake.Cancellation);
        design.Revisions.Select(line => (line.Revision.Number, line.Added, line.Moved, line.Deleted)).ShouldBe([(2, 1, 1, 0), (1, 200, 0, 0)]);
        design.WaitForProposal.Select(pile => pile.Judgement.Pile.Number).ShouldBe(["A-0001"]);
    }

    [Fact]
    public async Task A_schedule_that_takes_piles_out_is_the_managers_to_record()
    {
        await using Intake intake = await BuiltAsync();
        Permit surveyor = await intake.PermitAsync(Role.Surveyor);
        Guid upload = await intake.SendAsync(surveyor, "whole.csv", Encoding.UTF8.GetBytes(Head + Moved));

        RecordingResult refused = await intake.RecordAsync(surveyor, upload, choices: UploadChoices.AsTheFileSays with { Design = new DesignChoice(Core.Records.DesignScope.Zones) });

        refused.Batch.ShouldBeNull();
        refused.Refusal.ShouldNotBeNull().ShouldContain("the project manager's to record");
    }

    [Fact]
    public async Task The_owners_representative_decides_what_the_surveyor_proposed_and_only_once()
    {
        await using Intake intake = await BuiltAsync();
        Permit manager = await intake.PermitAsync(Role.ProjectManager);
        await intake.BringInAsync(manager, "revision-b.csv", Encoding.UTF8.GetBytes(Head + Moved));
        AnswerDesignChanges answer = intake.Get<AnswerDesignChanges>();
        Permit surveyor = await intake.PermitAsync(Role.Surveyor);
        (await answer.ProposeAsync(surveyor, ["A-0002"], DesignChangeAnswer.KeepAsBuilt, "as agreed", Intake.Cancellation)).Refusal.ShouldNotBeNull().ShouldContain("A-0002");
        (await answer.ProposeAsync(surveyor, ["A-0001"], DesignChangeAnswer.KeepAsBuilt, " ", Intake.Cancellation)).Refusal.ShouldNotBeNull().ShouldContain("missing");
        (await answer.ProposeAsync(surveyor, ["A-0001"], DesignChangeAnswer.KeepAsBuilt, "as agreed", Intake.Cancellation)).Refusal.ShouldBeNull();
        Permit owner = await intake.PermitAsync(Role.OwnersRepresentative);
        long proposal = (await intake.Get<ReadDesign>().RunAsync(owner, Intake.Cancellation)).Proposals.Single().Proposal.Record.Sequence;
        await Should.ThrowAsync<AccessRefusedException>(() => answer.DecideAsync(surveyor, proposal, true, "mine", Intake.Cancellation));

        (await answer.DecideAsync(owner, proposal, true, "", Intake.Cancellation)).Refusal.ShouldBeNull();

        ReadDesign.View design = await intake.Get<ReadDesign>().RunAsync(owner, Intake.Cancellation);
        design.Changed.Single().Design.IsOpen.ShouldBeFalse();
        design.WaitForProposal.ShouldBeEmpty();
        (await answer.DecideAsync(owner, proposal, false, "again", Intake.Cancellation)).Refusal.ShouldNotBeNull().ShouldContain("decided already");
    }

    private async Task<Intake> BuiltAsync()
    {
        Intake intake = await Intake.OpenAsync(database);
        Permit manager = await intake.PermitAsync(Role.ProjectManager);
        string[] design = Encoding.UTF8.GetString(Intake.File("seed-data", "planned-piles-zone-a.csv")).Split('\n');
        await intake.BringInAsync(manager, "design.csv", Encoding.UTF8.GetBytes(string.Join('\n', design.Take(201)) + "\n"));
        RecordingResult built = await intake.RecordAsync(manager, await intake.SendAsync(manager, "tern.csv", Intake.File("seed-data/as-built", "2026-03-14-tern.csv")), leaveOutProblems: true);
        built.Batch.ShouldNotBeNull(built.Refusal);
        return intake;
    }
}
