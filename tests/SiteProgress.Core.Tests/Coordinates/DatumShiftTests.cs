using Shouldly;
using SiteProgress.Core.Coordinates;
using Xunit;

namespace SiteProgress.Core.Tests.Coordinates;

public sealed class DatumShiftTests
{
    private static readonly Ellipsoid Wgs84 = Ellipsoid.FromInverseFlattening("WGS 84", 6378137, 298.257223563);
    private static readonly GeographicSystem Any = new(0, "any", Wgs84);
    private static readonly AreaOfUse World = new(-90, -180, 90, 180);

    [Fact]
    public void Published_shifts_come_out_in_both_directions()
    {
        var rows = ReferenceFiles.Lines("gigs-shifts.csv").Skip(1).Select(line => line.Split(',')).ToArray();
        rows.Length.ShouldBeGreaterThan(80);
        foreach (var cells in rows)
        {
            var shift = DatumShifts.Find((int)ReferenceFiles.Number(cells[0])).ShouldNotBeNull(cells[0]);
            var from = new GeographicCoordinate(ReferenceFiles.Number(cells[2]), ReferenceFiles.Number(cells[3]));
            var to = new GeographicCoordinate(ReferenceFiles.Number(cells[5]), ReferenceFiles.Number(cells[6]));
            if (cells[4].Length == 0)
            {
                // Far from the area of use the two ellipsoids lie hundreds of metres apart, so height 0 is another point on either side.
                if (cells[8] == "forward") ShouldBeNear(shift.Forward(from, 0).Position, to, cells[1]);
                else ShouldBeNear(shift.Inverse(to, 0).Position, from, cells[1]);
                var there = new GeographicCoordinate[1];
                shift.Forward([from], there);
                var back = new GeographicCoordinate[1];
                shift.Inverse(there, back);
                back[0].LatitudeDegrees.ShouldBe(from.LatitudeDegrees, 1e-10, cells[1]);
                continue;
            }

            var (position, height) = shift.Forward(from, ReferenceFiles.Number(cells[4]));
            ShouldBeNear(position, to, cells[1]);
            height.ShouldBe(ReferenceFiles.Number(cells[7]), 0.03, cells[1]);
            var returned = shift.Inverse(to, ReferenceFiles.Number(cells[7]));
            ShouldBeNear(returned.Position, from, cells[1]);
            returned.HeightMetres.ShouldBe(ReferenceFiles.Number(cells[4]), 0.03, cells[1]);
        }
    }

    [Fact]
    public void Geographic_and_geocentric_coordinates_are_published_for_each_other()
    {
        var rows = ReferenceFiles.Lines("gigs-geocentric.csv").Skip(1).Select(line => line.Split(',')).ToList();
        // IOGP Guidance Note 7-2, geographic/geocentric conversion (9602): 53°48'33.820"N 2°07'46.380"E, 73.0 m.
        rows.Add(["GN7-2", "3771793.968", "140253.342", "5124304.349", $"{53 + 48 / 60.0 + 33.820 / 3600:R}", $"{2 + 7 / 60.0 + 46.380 / 3600:R}", "73.0"]);
        rows.Count.ShouldBeGreaterThan(12);
        foreach (var cells in rows)
        {
            var v = cells.Skip(1).Select(ReferenceFiles.Number).ToArray();
            var there = GeocentricCoordinate.From(Wgs84, new(v[3], v[4]), v[5]);
            there.XMetres.ShouldBe(v[0], 0.01, cells[0]);
            there.YMetres.ShouldBe(v[1], 0.01, cells[0]);
            there.ZMetres.ShouldBe(v[2], 0.01, cells[0]);
            var (position, height) = new GeocentricCoordinate(v[0], v[1], v[2]).ToGeographic(Wgs84);
            position.LatitudeDegrees.ShouldBe(v[3], 0.0003 / 3600, cells[0]);
            (Math.IEEERemainder(position.LongitudeDegrees - v[4], 360) * Math.Cos(v[3] * Math.PI / 180)).ShouldBe(0, 0.0003 / 3600, cells[0]);
            height.ShouldBe(v[5], 0.01, cells[0]);
        }
    }

    [Theory]
    [InlineData(-5_000)]
    [InlineData(0)]
    [InlineData(9_000)]
    [InlineData(8_000_000)]
    public void Geocentric_coordinates_come_back_within_a_micrometre_everywhere(double height)
    {
        for (var latitude = -90.0; latitude <= 90; latitude += 7.5)
        {
            var (position, back) = GeocentricCoordinate.From(Wgs84, new(latitude, 33), height).ToGeographic(Wgs84);
            position.LatitudeDegrees.ShouldBe(latitude, 1e-11);
            back.ShouldBe(height, 2e-8 + Math.Abs(height) * 1e-14);
        }
    }

    [Fact]
    public void The_worked_examples_of_the_guidance_note_come_out()
    {
        // IOGP Guidance Note 7-2: geocentric translations (1031), position vector (1033) and coordinate frame (1032), WGS 72 to WGS 84, to the centimetre.
        var translation = new DatumShift(0, "example", Any, Any, 1, RotationConvention.None, new(84.87, 96.49, 116.95), default, 0, default, World);
        ShouldBeNear(translation.Forward(new GeocentricCoordinate(3771793.97, 140253.34, 5124304.35)), new(3771878.84, 140349.83, 5124421.30), 0.006);

        const double Microradians = 0.554 / 3600 * Math.PI / 180 * 1e6;
        var vector = new DatumShift(0, "example", Any, Any, 1, RotationConvention.PositionVector, new(0, 0, 4.5), new(0, 0, Microradians), 0.219, default, World);
        var frame = new DatumShift(0, "example", Any, Any, 1, RotationConvention.CoordinateFrame, new(0, 0, 4.5), new(0, 0, -Microradians), 0.219, default, World);
        var start = new GeocentricCoordinate(3657660.66, 255768.55, 5201382.11);
        ShouldBeNear(vector.Forward(start), new(3657660.78, 255778.43, 5201387.75), 0.011);
        frame.Forward(start).ShouldBe(vector.Forward(start));
        ShouldBeNear(vector.Inverse(vector.Forward(start)), start, 1e-8);

        // The opposite convention lands 19.7 m away: computed from the published parameters.
        var wrong = new DatumShift(0, "example", Any, Any, 1, RotationConvention.PositionVector, new(0, 0, 4.5), new(0, 0, -Microradians), 0.219, default, World);
        (wrong.Forward(start).YMetres - vector.Forward(start).YMetres).ShouldBe(-19.65, 0.05);
    }

    [Fact]
    public void Molodensky_Badekas_turns_about_its_own_point()
    {
        // IOGP Guidance Note 7-2, Molodensky-Badekas (1034, coordinate frame): La Canoa to REGVEN, to the centimetre.
        const double Second = Math.PI / 180 / 3600 * 1e6;
        var shift = new DatumShift(0, "example", Any, Any, 1, RotationConvention.CoordinateFrame, new(-270.933, 115.599, -360.226),
            new(-5.266 * Second, -1.238 * Second, 2.381 * Second), -5.109, new(2464351.59, -5783466.61, 974809.81), World);
        ShouldBeNear(shift.Forward(new GeocentricCoordinate(2550408.96, -5749912.26, 1054891.11)), new(2550138.46, -5749799.865, 1054530.823), 0.012);
    }

    [Fact]
    public void The_Helmert_example_of_the_Ordnance_Survey_guide_comes_out()
    {
        // A guide to coordinate systems in Great Britain, annex: WGS 84 to OSGB36, position vector, printed to the millimetre.
        const double Second = Math.PI / 180 / 3600 * 1e6;
        var shift = new DatumShift(0, "example", Any, Any, 1, RotationConvention.PositionVector, new(-446.448, 125.157, -542.060),
            new(-0.1502 * Second, -0.2470 * Second, -0.8421 * Second), 20.4894, default, World);
        ShouldBeNear(shift.Forward(new GeocentricCoordinate(3790644.900, -110149.210, 5111482.970)), new(3790269.549, -110038.064, 5111050.261), 0.002);
    }

    [Theory]
    [InlineData(4277, 4326, 52, 1)]
    [InlineData(4289, 4258, 52, 5)]
    [InlineData(4314, 4258, 52, 9)]
    public void What_is_offered_has_a_name_an_accuracy_and_says_where_a_grid_would_do_better(int from, int to, double latitude, double longitude)
    {
        var choice = DatumShifts.At(from, to, new(latitude, longitude));
        choice.Shifts.ShouldNotBeEmpty();
        choice.Shifts.ShouldAllBe(s => s.Name.Length > 0 && s.AccuracyMetres > 0 && s.From.EpsgCode == from && s.To.EpsgCode == to);
        choice.Shifts.Select(s => s.AccuracyMetres).ShouldBeInOrder();
        choice.BetterByGrid.ShouldNotBeNull().AccuracyMetres.ShouldBeLessThan(choice.Shifts[0].AccuracyMetres);
    }

    [Fact]
    public void Two_datums_that_are_only_declared_equal_are_told_as_that()
    {
        var shift = DatumShifts.Find(1149).ShouldNotBeNull(); // ETRS89 to WGS 84 (1)
        shift.IsNull.ShouldBeTrue();
        shift.AccuracyMetres.ShouldBe(1);
        DatumShifts.Find(1314)!.IsNull.ShouldBeFalse();
    }

    [Fact]
    public void Nothing_is_offered_where_nothing_is_published_or_the_place_lies_outside()
    {
        DatumShifts.At(4277, 4258, new(-40, 170)).Shifts.ShouldBeEmpty();
        DatumShifts.At(1, 2, new(50, 0)).Shifts.ShouldBeEmpty();
        DatumShifts.Find(-1).ShouldBeNull();
    }

    [Fact]
    public void A_rotation_without_its_convention_is_not_a_shift() =>
        Should.Throw<ArgumentException>(() => new DatumShift(0, "x", Any, Any, 1, RotationConvention.None, default, new(1, 0, 0), 0, default, World));

    [Theory]
    [InlineData(4277, 4326, 1314, 50, 60, -8, 1)]
    [InlineData(4313, 4326, 15929, 49.6, 51.5, 2.6, 6.3)]
    [InlineData(4289, 4258, 9281, 50.8, 53.6, 3.3, 7.2)]
    public void A_grid_of_positions_agrees_with_PROJ_to_a_hundredth_of_a_millimetre(int from, int to, int code, double south, double north, double west, double east)
    {
        var shift = DatumShifts.Find(code)!;
        var points = AgainstProjTests.Grid(south, north, west, east, 7);
        var ours = new GeographicCoordinate[points.Length];
        shift.Forward(points, ours);
        var theirs = AgainstProjTests.Cct($"urn:ogc:def:coordinateOperation:EPSG::{code}", points.Select(p => (p.LatitudeDegrees, p.LongitudeDegrees)));
        shift.From.EpsgCode.ShouldBe(from);
        shift.To.EpsgCode.ShouldBe(to);
        for (var i = 0; i < points.Length; i++)
        {
            ours[i].LatitudeDegrees.ShouldBe(theirs[i].First, 1e-10, $"{code} at {points[i]}");
            ours[i].LongitudeDegrees.ShouldBe(theirs[i].Second, 2e-10, $"{code} at {points[i]}");
        }

        var back = new GeographicCoordinate[points.Length];
        shift.Inverse(ours, back);
        for (var i = 0; i < points.Length; i++) back[i].LatitudeDegrees.ShouldBe(points[i].LatitudeDegrees, 1e-11);
    }

    private static void ShouldBeNear(GeographicCoordinate actual, GeographicCoordinate expected, string point)
    {
        actual.LatitudeDegrees.ShouldBe(expected.LatitudeDegrees, 3e-7, point);
        (Math.IEEERemainder(actual.LongitudeDegrees - expected.LongitudeDegrees, 360) * Math.Cos(expected.LatitudeDegrees * Math.PI / 180)).ShouldBe(0, 3e-7, point);
    }

    private static void ShouldBeNear(GeocentricCoordinate actual, GeocentricCoordinate expected, double tolerance)
    {
        actual.XMetres.ShouldBe(expected.XMetres, tolerance);
        actual.YMetres.ShouldBe(expected.YMetres, tolerance);
        actual.ZMetres.ShouldBe(expected.ZMetres, tolerance);
    }
}
