using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.SiteGrid;
using SiteProgress.Jobs.Tests.RecordsIn;
using Xunit;

namespace SiteProgress.Jobs.Tests.SiteGrid;

/// <summary>Control points observed again, known marks measured, distances, other datums and other projected systems.</summary>
public sealed class MarksOverTimeTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private static ObservationEntry Entry(string mark, string first, string second, string day = "2026-03-20", string sigma = "0.004", Frame frame = Frame.ProjectedCrs)
        => new(mark, frame, first, second, sigma, day, "total station from CP-2");

    [Fact]
    public async Task A_mark_observed_again_shows_whether_it_moved_and_a_withdrawn_observation_no_longer_counts()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit surveyor = await intake.PermitAsync(Role.Surveyor);
        ObserveControlPoint observe = intake.Get<ObserveControlPoint>();

        // CP-1 is adopted at 392589.492 6162982.201 with 4 mm. 4 mm off with 4 mm each: 16 / 32 = 0.5, below 9.21 (chi-squared, 99 %, two
        // degrees of freedom: -2 ln 0.01). 30 mm off: 900 / 32 = 28.1.
        (await observe.RunAsync(surveyor, Entry("CP-1", "392589.496", "6162982.201"), Intake.Cancellation)).ShouldBeNull();
        (await observe.RunAsync(surveyor, Entry("CP-1", "392589.492", "6162982.231", "2026-05-02"), Intake.Cancellation)).ShouldBeNull();

        ObservedMark[] seen = [.. (await ReadAsync(intake, surveyor)).Marks.Single(mark => mark.Adopted.Name == "CP-1").Observations];
        seen[0].SinceAdopted!.Statistic.ShouldBe(0.5, 1e-6);
        seen[0].SinceAdopted!.HasMoved.ShouldBeFalse();
        seen[1].SinceAdopted!.Statistic.ShouldBe(28.125, 1e-5);
        (seen[1].SinceAdopted!.HasMoved, seen[1].SinceBefore!.HasMoved).ShouldBe((true, true));
        ControlPointMovement.Limit.ShouldBe(-2 * Math.Log(0.01), 1e-9);

        WithdrawObservation withdraw = intake.Get<WithdrawObservation>();
        (await withdraw.RunAsync(surveyor, seen[1].Sequence, "", Intake.Cancellation)).ShouldBe("The reason is missing; it is kept with the record.");
        (await withdraw.RunAsync(surveyor, seen[1].Sequence, "prism height was not entered", Intake.Cancellation)).ShouldBeNull();
        (await withdraw.RunAsync(surveyor, seen[1].Sequence, "again", Intake.Cancellation))!.ShouldContain("withdrawn already");
        (await withdraw.RunAsync(surveyor, 999_999, "none", Intake.Cancellation))!.ShouldContain("There is no observation");
        MarkOverTime after = (await ReadAsync(intake, surveyor)).Marks.Single(mark => mark.Adopted.Name == "CP-1");
        (after.Observations.Count, after.Latest!.Sequence).ShouldBe((2, seen[0].Sequence));
        after.Observations[1].Withdrawal!.Reason.ShouldBe("prism height was not entered");
    }

    [Theory]
    [InlineData("CP-9", "392589.5", "6162982.2", "2026-03-20", "0.004", "There is no control point \"CP-9\"")]
    [InlineData("CP-1", "abc", "6162982.2", "2026-03-20", "0.004", "\"abc\" is not a number of metres.")]
    [InlineData("CP-1", "392589.5", "6162982.2", "20/03/2026", "0.004", "is not a day")]
    [InlineData("CP-1", "392589.5", "6162982.2", "2999-01-01", "0.004", "not one on which the mark can have been observed")]
    [InlineData("CP-1", "392589.5", "6162982.2", "2026-03-20", "0", "is not a standard deviation")]
    [InlineData("CP-1", "392589.5", "6162982.2", "2026-03-20", "4", "this looks like millimetres")]
    [InlineData("CP-1", "392589.5", "6162982.2", "2026-03-20", "", "The standard deviation is missing")]
    [InlineData("CP-1", "392844.338", "6162795.958", "2026-03-20", "0.004", "It lies at CP-2: was the wrong mark chosen?")]
    [InlineData("CP-1", "393589.492", "6162982.201", "2026-03-20", "0.004", "The position lies 1000.0 m from CP-1 as adopted.")]
    [InlineData("CP-1", "6162982.201", "392589.492", "2026-03-20", "0.004", "Easting and northing look swapped")]
    public async Task An_observation_that_cannot_be_is_refused_in_words(string mark, string first, string second, string day, string sigma, string said)
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit surveyor = await intake.PermitAsync(Role.Surveyor);
        long before = await intake.RecordsAsync();

        (await intake.Get<ObserveControlPoint>().RunAsync(surveyor, Entry(mark, first, second, day, sigma), Intake.Cancellation))!.ShouldContain(said);
        (await intake.RecordsAsync()).ShouldBe(before);
    }

    [Fact]
    public async Task A_list_of_observations_is_recorded_whole_or_not_at_all()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit surveyor = await intake.PermitAsync(Role.Surveyor);
        RecordObservations record = intake.Get<RecordObservations>();
        long before = await intake.RecordsAsync();
        string header = "Name,Observed on,Easting [m],Northing [m],Standard deviation [m],Method\n", good = "CP-3,2026-04-07,393090.904,6162666.526,0.004,GNSS\n";

        (await record.RunAsync(surveyor, header + good + "CP-4,7 April,393162.7,6162783.9,0.004,GNSS\n", Intake.Cancellation)).ShouldHaveSingleItem().ShouldContain("Line 3, column Observed on");
        (await record.RunAsync(surveyor, header + good + "CP-4,2026-04-07,392844.338,6162795.958,0.004,GNSS\n", Intake.Cancellation)).ShouldHaveSingleItem().ShouldContain("Line 3: The position lies 318.6 m from CP-4 as adopted. It lies at CP-2");
        (await record.RunAsync(surveyor, header, Intake.Cancellation)).ShouldHaveSingleItem().ShouldContain("no observation below it");
        (await record.RunAsync(surveyor, "", Intake.Cancellation)).ShouldHaveSingleItem().ShouldContain("the file is empty");
        (await intake.RecordsAsync()).ShouldBe(before);

        (await record.RunAsync(surveyor, System.Text.Encoding.UTF8.GetString(Intake.File("seed-data", "control-point-observations.csv")), Intake.Cancellation)).ShouldBeEmpty();
        (await intake.RecordsAsync()).ShouldBe(before + 18);
        // seed-data/README.md: CP-2 went 28 mm to the south-east, the others stand.
        (await ReadAsync(intake, surveyor)).Marks.Where(mark => mark.Observations.Any(one => one.SinceAdopted?.HasMoved == true)).Select(mark => mark.Adopted.Name).ShouldBe(["CP-2"]);
    }

    [Fact]
    public async Task A_known_mark_measured_agrees_or_is_told_what_it_looks_like()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit owner = await intake.PermitAsync(Role.OwnersRepresentative);
        TestCheckPoint test = intake.Get<TestCheckPoint>();

        CheckPointTest agrees = (await test.RunAsync(owner, "CP-4", new RecordedPosition(Frame.ProjectedCrs, 393162.700, 6162783.870), 0.010, Intake.Cancellation))!;
        agrees.Difference!.HasMoved.ShouldBeFalse();
        CheckPointTest off = (await test.RunAsync(owner, "CP-4", new RecordedPosition(Frame.SiteGrid, 1529.100, 2104.300), 0.010, Intake.Cancellation))!;
        off.Difference!.HasMoved.ShouldBeTrue();
        off.FirstMetres.ShouldBe(0.200, 1e-6);
        CheckPointTest zone = (await test.RunAsync(owner, "CP-4", new RecordedPosition(Frame.ProjectedCrs, 6162783.870, 393162.700), 0.010, Intake.Cancellation))!;
        zone.Refusal.ShouldNotBeNull().ShouldContain("look swapped");
        (await test.RunAsync(owner, "CP-77", new RecordedPosition(Frame.SiteGrid, 1, 2), 0.010, Intake.Cancellation))!.Refusal!.ShouldContain("There is no control point");
    }

    [Fact]
    public async Task A_line_has_its_length_on_the_grid_on_the_ellipsoid_and_on_the_ground()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit owner = await intake.PermitAsync(Role.OwnersRepresentative);
        MeasureDistance measure = intake.Get<MeasureDistance>();
        RecordedPosition one = new(Frame.ProjectedCrs, 392589.492, 6162982.201), two = new(Frame.ProjectedCrs, 393090.903, 6162666.527);

        MeasuredLine line = (await measure.RunAsync(owner, one, two, 50, Intake.Cancellation))!;
        line.Ground!.Value.GridMetres.ShouldBe(Math.Sqrt((501.411 * 501.411) + (315.674 * 315.674)), 1e-6);
        (line.Ground.Value.GridMetres / line.Ground.Value.EllipsoidMetres).ShouldBe(0.99974073, 5e-7); // scale factor from PROJ, seed-data/README.md
        line.Ground.Value.GroundMetres.ShouldBe(line.Ground.Value.EllipsoidMetres * (1 + (50 / 6_385_000.0)), 1e-4);
        line.GridBearingDegrees.ShouldBe((Math.Atan2(501.411, -315.674) * 180 / Math.PI), 1e-9);

        (await measure.RunAsync(owner, one, one, 0, Intake.Cancellation))!.Refusal.ShouldBe("The two points are the same.");
        (await measure.RunAsync(owner, one, new RecordedPosition(Frame.Geographic, -5, 7), 0, Intake.Cancellation))!.Refusal!.ShouldStartWith("Second point: The point lies");
    }

    [Fact]
    public async Task A_point_on_another_datum_goes_by_a_named_shift_alone_and_comes_back()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit owner = await intake.PermitAsync(Role.OwnersRepresentative);
        SiteGridRead grid = (await intake.Get<ReadSiteGrid>().RunAsync(owner, Intake.Cancellation))!;
        ConvertPoints convert = intake.Get<ConvertPoints>();

        LinkedSystem ed50 = grid.Datums.Single(other => other.OtherName == "ED50");
        DatumLink shift = ed50.Links[0];
        (shift.Shift.AccuracyMetres, shift.LeadsToSite).ShouldBe((ed50.Links.Min(link => link.Shift.AccuracyMetres), true));
        Conversion there = (await convert.WithDatumAsync(owner, [new(Frame.SiteGrid, 1250, 2030)], shift.Shift.EpsgCode, givenOnOther: false, Intake.Cancellation))!;
        GeographicCoordinate own = there.Points[0].Where!.Geographic, other = there.Points[0].Where!.Other!.Value;
        Math.Abs(other.LatitudeDegrees - own.LatitudeDegrees).ShouldBeInRange(0.0003, 0.002); // ED50 lies some 80 m away here
        Conversion back = (await convert.WithDatumAsync(owner, [new(Frame.Geographic, other.LatitudeDegrees, other.LongitudeDegrees)], shift.Shift.EpsgCode, givenOnOther: true, Intake.Cancellation))!;
        back.Points[0].Where!.Site.XMetres.ShouldBe(1250, 1e-5);
        back.Points[0].Where!.Site.YMetres.ShouldBe(2030, 1e-5);

        (await convert.WithDatumAsync(owner, [new(Frame.Geographic, 55.6, 7.3)], null, givenOnOther: true, Intake.Cancellation))!.Points[0].Refusal!.ShouldContain("none is ever applied by itself");
        (await convert.WithDatumAsync(owner, [new(Frame.Geographic, 55.6, 7.3)], 3894, givenOnOther: false, Intake.Cancellation))!.Points[0].Refusal!.ShouldContain("EPSG:3894 is not a shift");
    }

    [Theory]
    [InlineData("99999", "There is no EPSG code 99999")]
    [InlineData("EPSG:4326", "is a geographic system (latitude and longitude), not a projected one")]
    [InlineData("PROJCS[\"x\",GEOGCS[\"y\",DATUM[", "cut short")]
    [InlineData("hello", "expected")]
    [InlineData("", "Give an EPSG code")]
    [InlineData("123456789012", "is not an EPSG code")]
    [InlineData("LOCAL_CS[\"site\",UNIT[\"metre\",1]]", "define it as the site grid, by control points")]
    public async Task A_system_that_cannot_be_used_is_refused_as_a_surveyor_understands(string definition, string said)
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit administrator = await intake.PermitAsync(Role.Administrator);

        CrsTrial trial = await intake.Get<TryProjectedCrs>().RunAsync(administrator, definition, Intake.Cancellation);
        trial.Crs.ShouldBeNull();
        trial.Refusal!.ShouldContain(said);
        (await intake.Get<OfferProjectedCrs>().RunAsync(administrator, definition, "to try", Intake.Cancellation)).ShouldBe(trial.Refusal);
    }

    [Fact]
    public async Task An_offered_system_carries_the_next_adjustment_and_earlier_ones_keep_theirs()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit administrator = await intake.PermitAsync(Role.Administrator), surveyor = await intake.PermitAsync(Role.Surveyor);

        (await intake.Get<TryProjectedCrs>().RunAsync(administrator, "32631", Intake.Cancellation)).Caution!.ShouldContain("another datum");
        CrsTrial trial = await intake.Get<TryProjectedCrs>().RunAsync(administrator, "25831", Intake.Cancellation);
        trial.Caution!.ShouldContain("outside the area"); // the site lies at 7.3 degrees east, zone 31 ends at 6
        OfferProjectedCrs offer = intake.Get<OfferProjectedCrs>();
        (await offer.RunAsync(administrator, "25831", "a mistake", Intake.Cancellation))!.ShouldContain("outside the area");
        string pasted = trial.Wkt.Replace("AUTHORITY[\"EPSG\",\"25831\"]", "AUTHORITY[\"\",\"\"]", StringComparison.Ordinal);
        (await offer.RunAsync(administrator, pasted, "The drawings of the invented client are in it", Intake.Cancellation)).ShouldBeNull();
        (await offer.RunAsync(administrator, pasted, "twice", Intake.Cancellation)).ShouldBe("This definition is offered already.");

        SiteHistory history = await intake.Get<SiteHistories>().ReadAsync(surveyor.Site, Intake.Cancellation);
        RecordedPosition[] marks = [.. history.Adjustments[0].ControlPoints.Select(mark => new RecordedPosition(Frame.ProjectedCrs, mark.Projected.EastingMetres, mark.Projected.NorthingMetres))];
        Conversion there = (await intake.Get<ConvertPoints>().RunAsync(surveyor, marks, Intake.Cancellation))!;
        string list = "Name,X,Y,Latitude,Longitude,Standard deviation\n" + string.Concat(history.Adjustments[0].ControlPoints.Select((mark, index) => FormattableString.Invariant(
            $"{mark.Name},{mark.Site.XMetres},{mark.Site.YMetres},{there.Points[index].Where!.Geographic.LatitudeDegrees:0.000000000},{there.Points[index].Where!.Geographic.LongitudeDegrees:0.000000000},{mark.StandardDeviationMetres}\n")));
        AdjustmentProposal proposal = new(list, AdjustmentKind.Similarity, 1, SiteAxes.RightHanded, 0.005, history.OfferedCrs[0].Sequence);
        WorkedOutProposal worked = (await intake.Get<ProposeAdjustment>().RunAsync(surveyor, proposal, Intake.Cancellation))!;
        worked.Crs.EpsgCode.ShouldBe(0);
        (await intake.Get<AdoptAdjustment>().RunAsync(surveyor, proposal, 1, warningsRead: true, "The client's drawings are in zone 31", Intake.Cancellation)).ShouldBe((2, null));

        SiteGridRead grid = (await intake.Get<ReadSiteGrid>().RunAsync(surveyor, Intake.Cancellation))!;
        (grid.Crs.EpsgCode, grid.Earlier[0].Body.EpsgCode).ShouldBe((0, 25832));
        Conversion anew = (await intake.Get<ConvertPoints>().RunAsync(surveyor, [new(Frame.Geographic, there.Points[0].Where!.Geographic.LatitudeDegrees, there.Points[0].Where!.Geographic.LongitudeDegrees)], Intake.Cancellation))!;
        anew.Points[0].Where!.Site.XMetres.ShouldBe(940.000, 0.05); // CP-1; across two zones the scale changes over the site, so millimetres are lost
    }

    private static async Task<MarksOverTime> ReadAsync(Intake intake, Permit permit)
        => (await intake.Get<ReadObservations>().RunAsync(permit, Intake.Cancellation)).ShouldNotBeNull();
}
