using System.Globalization;
using NodaTime;
using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.SiteGrid;
using SiteProgress.Jobs.Tests.RecordsIn;
using Xunit;

namespace SiteProgress.Jobs.Tests.SiteGrid;

/// <summary>A surveyor proposes, looks at and adopts another adjustment of the demonstration's site grid.</summary>
public sealed class NewAdjustmentTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    /// <summary>The six marks of seed-data/control-points.csv.</summary>
    private static readonly string[] Marks =
    [
        "CP-1,940.000,1958.400,392589.492,6162982.201,0.004", "CP-2,1255.250,1941.000,392844.338,6162795.958,0.004", "CP-3,1532.600,1966.750,393090.903,6162666.527,0.004",
        "CP-4,1528.900,2104.300,393162.698,6162783.872,0.004", "CP-5,1249.700,2121.850,392938.174,6162950.601,0.012", "CP-6,947.150,2108.050,392676.965,6163103.781,0.004",
    ];

    private const string Header = "Name,X [m],Y [m],Easting [m],Northing [m],Standard deviation [m]";

    [Fact]
    public async Task The_same_marks_give_the_same_fit_and_adopting_it_changes_no_pile()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit surveyor = await WithPilesAsync(intake);

        WorkedOutProposal worked = await ProposeAsync(intake, surveyor, Marks);

        worked.Body!.Adjustment.Revision.ShouldBe(2);
        worked.Warnings.ShouldBeEmpty();
        worked.Effect!.Piles.Count.ShouldBe(File.ReadLines(Path.Combine(TestSupport.Checkout.Folder, "seed-data", "planned-piles-zone-a.csv")).Count() - 1);
        worked.Effect.Piles.Max(pile => pile.ShiftMetres)!.Value.ShouldBeLessThan(1e-6);
        (worked.Effect.ChangedByAdopting, worked.Effect.ChangedIfPlacedAnew).ShouldBe((0, 0));
    }

    [Fact]
    public async Task Marks_surveyed_a_quarter_of_a_metre_further_east_move_every_pile_by_it_and_change_verdicts_only_if_records_were_placed_anew()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit surveyor = await WithPilesAsync(intake);
        string[] moved = [.. Marks.Select(mark => Replace(mark, 3, easting => easting + 0.25))];

        WorkedOutProposal worked = await ProposeAsync(intake, surveyor, moved);

        worked.Effect!.Piles.ShouldAllBe(pile => Math.Abs(pile.ShiftEastMetres!.Value - 0.25) < 1e-4 && Math.Abs(pile.ShiftNorthMetres!.Value) < 1e-4);
        worked.Effect.ChangedByAdopting.ShouldBe(0);
        (await intake.RecordsAsync()).ShouldBe(await RecordsBeforeAsync(intake)); // looking records nothing

        (int? revision, string? refusal) = await AdoptAsync(intake, surveyor, moved, seen: 1, "All marks were surveyed again by an independent team.");
        (revision, refusal).ShouldBe((2, null));
        SiteGridRead grid = (await intake.Get<ReadSiteGrid>().RunAsync(surveyor, Intake.Cancellation))!;
        (grid.Adopted.Body.Adjustment.Revision, grid.Earlier.Count).ShouldBe((2, 1));
        grid.Adopted.Body.Reason.ShouldBe("All marks were surveyed again by an independent team.");

        // Earlier batches keep the revision they were made with, a later one is placed by the new one.
        SiteHistory history = await intake.Get<SiteHistories>().ReadAsync(surveyor.Site, Intake.Cancellation);
        history.Batches.ShouldAllBe(batch => batch.Body.AdjustmentRevision == 1);
        await intake.BringInAsync(surveyor, "later.csv", Intake.File("seed-data", "as-built/2026-04-11-plover.csv"));
        (await intake.Get<SiteHistories>().ReadAsync(surveyor.Site, Intake.Cancellation)).Batches[^1].Body.AdjustmentRevision.ShouldBe(2);
    }

    [Fact]
    public async Task Records_placed_by_projected_coordinates_show_what_the_new_grid_would_make_of_them()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit surveyor = await intake.PermitAsync(Role.Surveyor);
        await intake.BringInAsync(surveyor, "plan.csv", Intake.File("seed-data", "planned-piles-zone-a.csv"));
        Conversion at = (await intake.Get<ConvertPoints>().RunAsync(surveyor, [FirstPile(await intake.Get<SiteHistories>().ReadAsync(surveyor.Site, Intake.Cancellation), out string number)], Intake.Cancellation))!;
        ProjectedCoordinate place = at.Points[0].Where!.Projected;
        string built = string.Create(CultureInfo.InvariantCulture, $"""
            Record,Pile No,Barge,Casing,Set-up,Start,End,Easting touch-down [m],Northing touch-down [m],Easting end [m],Northing end [m],Top level [m],Tip level [m],Sand in casing [m3],Inclination [deg],Fix,Outcome
            R1,{number},Tern,1,S1,2026-04-02 08:00,2026-04-02 08:45,{place.EastingMetres:0.000},{place.NorthingMetres:0.000},{place.EastingMetres:0.000},{place.NorthingMetres:0.000},-6.0,-20.0,60,0.1,RTK fixed,complete

            """);
        await intake.BringInAsync(surveyor, "built.csv", System.Text.Encoding.UTF8.GetBytes(built));

        WorkedOutProposal worked = await ProposeAsync(intake, surveyor, [.. Marks.Select(mark => Replace(mark, 3, easting => easting + 0.25))]);

        PileEffect pile = worked.Effect!.Piles.Single(one => one.Number == number);
        pile.RadialNowMetres!.Value.ShouldBe(0, 0.001);
        pile.RadialPlacedAnewMetres!.Value.ShouldBe(0.25, 0.001); // on the site grid a metre of the projected CRS is a metre within 300 ppm
        (pile.ChangesByAdopting, pile.ChangesIfPlacedAnew).ShouldBe((false, true));
        worked.Effect.ChangedIfPlacedAnew.ShouldBe(1);
    }

    [Fact]
    public async Task Marks_given_by_latitude_and_longitude_give_the_fit_of_their_eastings_and_northings_and_are_kept_as_given()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit surveyor = await intake.PermitAsync(Role.Surveyor);
        RecordedPosition[] projected = [.. Marks.Select(mark => mark.Split(',')).Select(cells => new RecordedPosition(Frame.ProjectedCrs, Number(cells[3]), Number(cells[4])))];
        Conversion there = (await intake.Get<ConvertPoints>().RunAsync(surveyor, projected, Intake.Cancellation))!;
        string[] geographic = [.. Marks.Select((mark, index) => string.Join(';', [.. mark.Split(',')[..3],
            DegreesMinutesSeconds.FormatLatitude(there.Points[index].Where!.Geographic.LatitudeDegrees, 6), DegreesMinutesSeconds.FormatLongitude(there.Points[index].Where!.Geographic.LongitudeDegrees, 6), "0.004"]))];

        WorkedOutProposal worked = await ProposeAsync(intake, surveyor, geographic, header: "Name;X [m];Y [m];Latitude;Longitude;Standard deviation [m]");
        worked.Reading.Problems.ShouldBeEmpty();
        WorkedOutProposal plain = await ProposeAsync(intake, surveyor, [.. Marks.Select(mark => Replace(mark, 5, _ => 0.004))]);
        worked.Body!.Adjustment.Scale.ShouldBe(plain.Body!.Adjustment.Scale, 1e-7); // a millionth of a second is 0.03 mm
        worked.Body.Adjustment.RotationDegrees.ShouldBe(plain.Body.Adjustment.RotationDegrees, 1e-5);
        worked.Body.Surveyed!.Count.ShouldBe(6);
        worked.Body.Surveyed.ShouldAllBe(position => position.Frame == Frame.Geographic);
        plain.Body.Surveyed.ShouldBeNull();
    }

    [Fact]
    public async Task What_cannot_be_adopted_is_refused_in_words()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit surveyor = await intake.PermitAsync(Role.Surveyor);
        long before = await intake.RecordsAsync();

        (await AdoptAsync(intake, surveyor, Marks, 1, " ")).Refusal!.ShouldContain("reason is missing");
        (await AdoptAsync(intake, surveyor, Marks[..2], 1, "two")).Refusal!.ShouldContain("There are warnings");
        (await AdoptAsync(intake, surveyor, ["CP-1,1,2,x,4,0.004"], 1, "bad")).Refusal!.ShouldContain("Line 2");
        (await AdoptAsync(intake, surveyor, Marks[..1], 1, "one")).Refusal!.ShouldContain("needs at least 2");
        (await AdoptAsync(intake, surveyor, Marks, 7, "seen another")).Refusal!.ShouldContain("was adopted meanwhile");
        (await intake.RecordsAsync()).ShouldBe(before);

        (await AdoptAsync(intake, surveyor, Marks[..2], 1, "two marks are left", warningsRead: true)).Revision.ShouldBe(2);
        (await AdoptAsync(intake, surveyor, Marks, 1, "looked before")).Refusal!.ShouldContain("Revision 2 was adopted meanwhile");
    }

    /// <summary>What the page says to each list that must be told; the fit itself is held against published examples elsewhere.</summary>
    [Theory]
    [InlineData("one", "needs at least 2, and one more to be checked")]
    [InlineData("two", "is not checked: a wrong coordinate would not show")]
    [InlineData("line", "lie in one line")]
    [InlineData("same", "in one place of the site grid")]
    [InlineData("kilometre", "CP-3 contradicts the other marks")]
    [InlineData("swapped", "CP-1: Easting and northing look swapped")]
    [InlineData("one swapped", "CP-2: easting and northing look swapped; exchanged, it agrees with the other marks")]
    [InlineData("site swapped", "CP-2: its two site coordinates look swapped; exchanged, it agrees with the other marks")]
    [InlineData("latitude swapped", "CP-1: Latitude and longitude look swapped")]
    [InlineData("zone", "CP-1: This looks like a point of the neighbouring zone")]
    [InlineData("twice", "each mark once; line 2 has it already")]
    [InlineData("empty", "no control point below it")]
    [InlineData("scale", "ground and grid distances may be mixed")]
    [InlineData("not around", "do not surround the site")]
    [InlineData("elsewhere", "The middle of the site moves by 300.0 m against revision 1")]
    public async Task A_list_that_cannot_be_right_is_told_as_what_it_looks_like(string what, string said)
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit surveyor = await intake.PermitAsync(Role.Surveyor);
        if (what == "not around") await intake.BringInAsync(surveyor, "plan.csv", Intake.File("seed-data", "planned-piles-zone-a.csv"));
        string header = what == "latitude swapped" ? "Name,X [m],Y [m],Latitude [deg],Longitude [deg],Standard deviation [m]" : Header;

        WorkedOutProposal worked = await ProposeAsync(intake, surveyor, List(what), header);

        string all = string.Join(" ", [.. worked.Reading.Problems.Select(problem => problem.Sentence), worked.Refusal, .. worked.Warnings]);
        all.ShouldContain(said);
    }

    private static string[] List(string what) => what switch
    {
        "one" => Marks[..1],
        "two" => Marks[..2],
        "line" => ["A,0,0,500000,6160000,0.004", "B,100,0,500100,6160000,0.004", "C,200,0,500200,6160000,0.004"],
        "same" => ["A,10,10,393000,6162000,0.004", "B,10,10,393000,6162000,0.004"],
        "kilometre" => [.. Marks.Select(mark => mark.StartsWith("CP-3", StringComparison.Ordinal) ? Replace(mark, 3, easting => easting + 1000) : mark)],
        "swapped" => [.. Marks.Select(mark => Exchange(mark, 3, 4))],
        "one swapped" => [.. Marks.Select(mark => mark.StartsWith("CP-2", StringComparison.Ordinal) ? Exchange(mark, 3, 4) : mark)],
        "site swapped" => [.. Marks.Select(mark => mark.StartsWith("CP-2", StringComparison.Ordinal) ? Exchange(mark, 1, 2) : mark)],
        "latitude swapped" => ["CP-1,940,1958.4,7.296,55.603,0.004", "CP-2,1255.25,1941,7.300,55.601,0.004", "CP-3,1532.6,1966.75,7.304,55.600,0.004"],
        "zone" => ["CP-1,940,1958.4,770700,6170600,0.004", "CP-2,1255.25,1941,770950,6170420,0.004", "CP-3,1532.6,1966.75,771200,6170300,0.004"],
        "twice" => [Marks[0], Marks[0]],
        "empty" => [],
        "scale" => [.. Marks.Select((mark, index) => Replace(Replace(mark, 1, x => x * 1.001), 2, y => y * 1.001))],
        "not around" => [.. Marks.Select(mark => Replace(Replace(mark, 1, x => x - 2000), 3, easting => easting))],
        "elsewhere" => [.. Marks.Select(mark => Replace(mark, 4, northing => northing + 300))],
        _ => throw new ArgumentOutOfRangeException(nameof(what), what, null),
    };

    private static async Task<Permit> WithPilesAsync(Intake intake)
    {
        Permit surveyor = await intake.PermitAsync(Role.Surveyor);
        await intake.BringInAsync(surveyor, "plan.csv", Intake.File("seed-data", "planned-piles-zone-a.csv"));
        await intake.BringInAsync(surveyor, "built.csv", Intake.File("seed-data", "as-built/2026-04-11-tern.csv"));
        return surveyor;
    }

    private static Task<long> RecordsBeforeAsync(Intake intake)
        => intake.OneAsync<long>("select sequence from derived.site_state t join record.site s on s.site = t.site where s.code = $1", intake.Code);

    private static async Task<WorkedOutProposal> ProposeAsync(Intake intake, Permit surveyor, string[] marks, string header = Header)
        => (await intake.Get<ProposeAdjustment>().RunAsync(surveyor, Proposal(marks, header), Intake.Cancellation)).ShouldNotBeNull();

    private static Task<(int? Revision, string? Refusal)> AdoptAsync(Intake intake, Permit surveyor, string[] marks, int seen, string reason, bool warningsRead = false)
        => intake.Get<AdoptAdjustment>().RunAsync(surveyor, Proposal(marks, Header), seen, warningsRead, reason, Intake.Cancellation);

    private static AdjustmentProposal Proposal(string[] marks, string header)
        => new(string.Join('\n', [header, .. marks]) + "\n", AdjustmentKind.Similarity, 1, SiteAxes.RightHanded, 0.005, null);

    private static RecordedPosition FirstPile(SiteHistory history, out string number)
    {
        BatchRow<AsPlanned> row = history.Planned.First();
        number = row.Value.Number;
        return row.Value.Position;
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static string Replace(string mark, int cell, Func<double, double> change)
    {
        string[] cells = mark.Split(',');
        cells[cell] = change(Number(cells[cell])).ToString("0.####", CultureInfo.InvariantCulture);
        return string.Join(',', cells);
    }

    private static string Exchange(string mark, int one, int other)
    {
        string[] cells = mark.Split(',');
        (cells[one], cells[other]) = (cells[other], cells[one]);
        return string.Join(',', cells);
    }
}
