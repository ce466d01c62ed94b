using Shouldly;
using SiteProgress.Core.Design;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Design;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Jobs.Tests.RecordsIn;
using Xunit;

namespace SiteProgress.Jobs.Tests.Design;

/// <summary>A zone laid out, sent in, looked at and recorded. The schedules compared with come from the generator of the demonstration, which shares no code with the product.</summary>
public sealed class LayOutPilesTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    [Theory]
    [InlineData("A", 2160, "square")]
    [InlineData("C", 1845, "triangular")]
    public async Task A_zone_laid_out_anew_is_the_very_schedule_that_was_drawn(string zone, int piles, string pattern)
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit manager = await intake.PermitAsync(Role.ProjectManager);
        await intake.BringInAsync(manager, "drawn.csv", Intake.File("seed-data", $"planned-piles-zone-{zone.ToLowerInvariant()}.csv"));

        LayOutPiles.View view = await LayAsync(intake, manager, new(zone));

        view.Problems.ShouldBeEmpty();
        view.Texts.Pattern.ShouldBe(pattern);
        (view.Layout!.Figures.Piles, view.PlannedInZone, view.Replaces).ShouldBe((piles, piles, true));
        UploadPreview preview = await intake.LookAsync(manager, await SendAsync(intake, manager, new(zone)), Whole);
        preview.ProblemCount.ShouldBe(0);
        preview.RowsGood.ShouldBe(piles);
        // Drawn and laid out agree in every number and place; only the remark of the first pile is the drawing's own.
        preview.Difference!.Difference.Lines.ShouldAllBe(line => line.Kind == DesignChangeKind.Changed && line.Fields.All(field => field.Field == DesignField.Remark));
    }

    [Fact]
    public async Task A_zone_without_piles_starts_from_its_outline_and_its_design()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit surveyor = await intake.PermitAsync(Role.Surveyor);

        LayOutPiles.View view = await LayAsync(intake, surveyor, new("B"));

        view.Problems.ShouldBeEmpty();
        (view.Texts.Pattern, view.Texts.Spacing, view.Texts.Second, view.Texts.Replaces).ShouldBe(("rectangular", "2.1", "2.6", "no"));
        view.Layout!.Figures.RatioByCell.ShouldBe(0.4661, 0.00005); // π 1.8² / (4 · 2.1 · 2.6), as the demonstration's design says.
        view.Layout.Figures.IsLeastLength.ShouldBeTrue();
        view.Layout.Figures.SandInCasing!.Value.ShouldBe(Math.PI * 1.8 * 1.8 / 4 * 14 / 0.82, 1e-9); // C of Long Shoal.
    }

    [Fact]
    public async Task What_is_sent_in_records_nothing_and_becomes_a_revision_when_it_is_recorded()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit manager = await intake.PermitAsync(Role.ProjectManager);
        await intake.BringInAsync(manager, "drawn.csv", Intake.File("seed-data", "planned-piles-zone-a.csv"));
        long before = await intake.RecordsAsync();
        LayoutTexts wider = new("A", Spacing: "2.2", Numbers: "AW-{count:4}");

        Guid upload = await SendAsync(intake, manager, wider);

        (await intake.RecordsAsync()).ShouldBe(before);
        RecordingResult recorded = await intake.RecordAsync(manager, upload, choices: Whole);
        recorded.Batch.ShouldNotBeNull(recorded.Refusal);
        ReadDesign.View design = await intake.Get<ReadDesign>().RunAsync(manager, Intake.Cancellation);
        design.Planned.ShouldBe((await LayAsync(intake, manager, wider)).Layout!.Figures.Piles);
        design.Revisions[0].Revision.Scope.ShouldBe(DesignScope.Zones);
    }

    [Fact]
    public async Task Coordinates_levels_and_numbers_come_back_from_the_schedule_as_they_were_laid_out()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit manager = await intake.PermitAsync(Role.ProjectManager);
        LayoutTexts turned = new("A", Turn: "31.7", Numbers: "B{row:2}-C{place:2}", Order: "serpentine", Places: "column", Tip: "-27.125", Edge: "0.5");
        Dictionary<string, PlannedPile> laid = (await LayAsync(intake, manager, turned)).Layout!.Planned().ToDictionary(pile => pile.Number);

        await intake.RecordAsync(manager, await SendAsync(intake, manager, turned));

        LayOutPiles.View again = await LayAsync(intake, manager, turned);
        again.PlannedInZone.ShouldBe(laid.Count);
        again.Cautions.ShouldNotContain(one => one.Text.Contains("stay planned", StringComparison.Ordinal));

        DesignComparison comparison = (await intake.Get<CompareRevisions>().RunAsync(manager, 0, 1, Intake.Cancellation))!.Comparison;
        comparison.Difference.Lines.Count.ShouldBe(laid.Count);
        foreach (PlannedPile pile in comparison.Difference.Lines.Select(line => line.After!))
        {
            PlannedPile asLaid = laid[pile.Number];
            pile.Position.DistanceToMetres(asLaid.Position).ShouldBeLessThan(0.00071); // Half a millimetre each way.
            (pile.DiameterMetres, pile.TopLevelMetres, pile.TipLevelMetres, pile.LeastLengthMetres).ShouldBe((2.0, -12.5, -27.125, 15.0));
        }
    }

    [Fact]
    public async Task Numbers_that_other_piles_bear_are_refused_unless_the_layout_takes_their_place()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit manager = await intake.PermitAsync(Role.ProjectManager);
        await intake.BringInAsync(manager, "drawn.csv", Intake.File("seed-data", "planned-piles-zone-a.csv"));

        LayOutPiles.View added = await LayAsync(intake, manager, new("A", Replaces: "no"));
        LayOutPiles.View other = await LayAsync(intake, manager, new("B", Numbers: "A-{count:4}"));

        added.Problems.Single().Found.ShouldBe("A-0001 and 2159 others");
        added.Cautions.ShouldContain(one => one.Text.StartsWith("2160 of the piles stand closer than a diameter to piles that stay planned", StringComparison.Ordinal));
        other.Problems.Single().Expected.ShouldStartWith("numbers that no other pile of the design bears");
        (await intake.Get<LayOutPiles>().SendInAsync(manager, new("A", Replaces: "no"), Intake.Cancellation)).Refusal.ShouldNotBeNull().ShouldStartWith("Numbers: A-0001 and 2159 others; expected ");
    }

    [Theory]
    [InlineData("zone", "Z", "Zone", "Z")]
    [InlineData("corners", "0 0\n10 zero\n10 10", "Corners, line 2", "10 zero")]
    [InlineData("corners", "0 0\n10 0", "Outline", "2 corners")]
    [InlineData("corners", "0 0\n10 10\n10 0\n0 10", "Outline", "the side from corner 1 to 2 meets the side from corner 3 to 4")]
    [InlineData("pattern", "hexagon", "Pattern", "hexagon")]
    [InlineData("spacing", "two", "Spacing", "two")]
    [InlineData("spacing", "1,9", "Spacing", "1.900 m")]
    [InlineData("spacing", "1e3", "Spacing", "1e3")]
    [InlineData("ratio", "0.9", "Replacement ratio", "0.9000")]
    [InlineData("turn", "NaN", "Rotation", "NaN")]
    [InlineData("edge", "-1", "Edge distance", "-1")]
    [InlineData("tip", "28", "Tip level", "28.000 m")]
    [InlineData("numbers", "Ä-{count}", "Numbers", "Ä-1")]
    [InlineData("numbers", "={count}", "Numbers", "=1")]
    [InlineData("numbers", "A", "Numbers", "A and others stand more than once, 2159 times in all")]
    [InlineData("first", "1.5", "First number", "1.5")]
    [InlineData("order", "zigzag", "Order in the rows", "zigzag")]
    [InlineData("replaces", "maybe", "Replaces", "maybe")]
    public async Task What_cannot_be_is_refused_by_name_and_value(string name, string value, string where, string found)
    {
        await using Intake intake = await Intake.OpenAsync(database);
        LayoutTexts texts = name switch
        {
            "zone" => new(value),
            "corners" => new("A", Corners: value),
            "pattern" => new("A", Pattern: value),
            "spacing" => new("A", Spacing: value),
            "ratio" => new("A", Ratio: value),
            "turn" => new("A", Turn: value),
            "edge" => new("A", Edge: value),
            "tip" => new("A", Tip: value),
            "numbers" => new("A", Numbers: value),
            "first" => new("A", First: value),
            "order" => new("A", Order: value),
            _ => new("A", Replaces: value),
        };

        LayOutPiles.View view = await LayAsync(intake, await intake.PermitAsync(Role.ProjectManager), texts);

        (view.Problems.ShouldHaveSingleItem().Where, view.Problems[0].Found).ShouldBe((where, found));
    }

    [Fact]
    public async Task A_blank_line_begins_a_part_that_is_left_out()
    {
        await using Intake intake = await Intake.OpenAsync(database);

        LayOutPiles.View view = await LayAsync(
            intake, await intake.PermitAsync(Role.Administrator), new("A", Corners: "# quay wall\r\n0;0\r\n42;0\r\n42;42\r\n0;42\r\n\r\n10,0 10,0\r\n20,0 10,0\r\n20,0 20,0\r\n10,0 20,0", X: "1.05", Y: "1.05"));

        view.Problems.ShouldBeEmpty();
        view.Layout!.Figures.AreaSquareMetres.ShouldBe((42 * 42) - 100);
        view.Layout.Piles.ShouldNotContain(pile => pile.Position.XMetres > 9 && pile.Position.XMetres < 21 && pile.Position.YMetres > 9 && pile.Position.YMetres < 21);
    }

    private static readonly UploadChoices Whole = UploadChoices.AsTheFileSays with { Design = new DesignChoice(DesignScope.Zones) };

    private static async Task<LayOutPiles.View> LayAsync(Intake intake, Permit permit, LayoutTexts texts)
        => (await intake.Get<LayOutPiles>().RunAsync(permit, texts, Intake.Cancellation)).ShouldNotBeNull();

    private static async Task<Guid> SendAsync(Intake intake, Permit permit, LayoutTexts texts)
    {
        UploadResult sent = await intake.Get<LayOutPiles>().SendInAsync(permit, texts, Intake.Cancellation);
        return sent.Upload.ShouldNotBeNull(sent.Refusal);
    }
}
