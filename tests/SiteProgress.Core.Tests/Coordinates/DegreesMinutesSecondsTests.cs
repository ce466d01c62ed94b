using Shouldly;
using SiteProgress.Core.Coordinates;
using Xunit;

namespace SiteProgress.Core.Tests.Coordinates;

public sealed class DegreesMinutesSecondsTests
{
    [Theory]
    [InlineData(52.657570305555556, "52°39'27.2531\"N")] // Ordnance Survey guide, Annex C
    [InlineData(-37.951033416666665, "37°57'03.7203\"S")] // Flinders Peak
    [InlineData(0, "0°00'00.0000\"N")]
    [InlineData(59.99999999999, "60°00'00.0000\"N")]
    public void A_latitude_is_written_with_four_decimals_of_a_second(double degrees, string expected) =>
        DegreesMinutesSeconds.FormatLatitude(degrees).ShouldBe(expected);

    [Theory]
    [InlineData(1.7179215833333333, 4, "1°43'04.5177\"E")]
    [InlineData(-1.7179215833333333, 0, "1°43'05\"W")]
    [InlineData(-180, 1, "180°00'00.0\"W")]
    public void A_longitude_is_written_with_the_asked_decimals(double degrees, int decimals, string expected) =>
        DegreesMinutesSeconds.FormatLongitude(degrees, decimals).ShouldBe(expected);

    [Theory]
    [InlineData("52°39'27.2531\"N", 52.657570305555556)]
    [InlineData("52 39 27.2531 n", 52.657570305555556)]
    [InlineData("N 52°39.4542183'", 52.657570305)]
    [InlineData("52-39-27.2531N", 52.657570305555556)]
    [InlineData("52:39:27.2531", 52.657570305555556)]
    [InlineData("-52.5", -52.5)]
    [InlineData("52.5°S", -52.5)]
    [InlineData(" 52.5 ", 52.5)]
    [InlineData("52d39m27.2531sN", 52.657570305555556)]
    [InlineData("52º 39′ 27.2531″ S", -52.657570305555556)]
    public void A_latitude_is_read_in_the_usual_spellings(string text, double expected) =>
        DegreesMinutesSeconds.ParseLatitude(text).Degrees!.Value.ShouldBe(expected, 1e-12);

    [Theory]
    [InlineData("2°07'46.38\"E", 2.12955)]
    [InlineData("179 59 59.9999 W", -179.99999997222222)]
    public void A_longitude_is_read_in_the_usual_spellings(string text, double expected) =>
        DegreesMinutesSeconds.ParseLongitude(text).Degrees!.Value.ShouldBe(expected, 1e-12);

    [Theory]
    [InlineData("52°61'00\"N", "below 60")]
    [InlineData("91", "between -90 and 90")]
    [InlineData("52 E", "N or S")]
    [InlineData("-52 S", "both a minus sign")]
    [InlineData("N 52 S", "two hemisphere letters")]
    [InlineData("52.5 30 00 N", "only its last part")]
    [InlineData("fifty", "expected decimal degrees")]
    [InlineData("", "expected decimal degrees")]
    [InlineData("52,5", "expected decimal degrees")]
    [InlineData("١٢", "expected decimal degrees")]
    public void A_wrong_latitude_says_what_is_wrong(string text, string reason) =>
        DegreesMinutesSeconds.ParseLatitude(text).Refusal!.ShouldContain(reason);
}
