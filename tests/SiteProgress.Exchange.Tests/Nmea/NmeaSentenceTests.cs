using SiteProgress.Core.Piles;

namespace SiteProgress.Exchange.Tests.Nmea;

/// <summary>
/// Sentences that are published with their checksum: GGA *47 in D. DePriest's description of NMEA data (gpsinformation.org/dale/nmea.htm),
/// GGA *4F and HDT *00 in a receiver's manual ("NMEA-0183 messages: common message elements", "NMEA-0183 message: HDT"), HDT *03 and GNGGA
/// *47 from memory. The *00 is no checksum of its sentence but a place for one, and so is refused.
/// </summary>
public sealed class NmeaSentenceTests
{
    private const string Single = "$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*47";
    private const string Differential = "$GPGGA,172814.0,3723.46587704,N,12202.26957864,W,2,6,1.2,18.893,M,-25.669,M,2.0,0031*4F";
    private const string Header = "Pile No;Barge;Outcome;GGA;HDT;Length antenna to tip [m]\n";

    [Theory]
    [InlineData(Single, FixType.Autonomous, null, 592.3)]
    [InlineData(Differential, FixType.Differential, 2.0, -6.776)]
    [InlineData("$GNGGA,001043.00,4404.14036,N,12118.85961,W,1,12,0.98,1113.0,M,-21.3,M,,*47", FixType.Autonomous, null, 1091.7)]
    public void A_GGA_sentence_gives_fix_age_of_correction_and_height_of_the_antenna(string sentence, FixType fix, double? age, double height)
    {
        var reading = Given.Built(Header + $"A-1;Tern;complete;{sentence};;40,5\n").WithoutProblems();

        var built = reading.Rows.ShouldHaveSingleItem().Value;
        (built.Fix, built.CorrectionAgeSeconds).ShouldBe((fix, age));
        built.Depths!.AntennaHeightAtTipMetres!.Value.ShouldBe(height, 1e-9);
        built.AtEndOfPenetration.ShouldBeNull();
        reading.Warnings.ShouldHaveSingleItem().Expected.ShouldContain("a GGA sentence holds that of the antenna");
    }

    [Fact]
    public void A_HDT_sentence_gives_the_heading_from_true_north()
    {
        var built = Given.Built(Header + "A-1;Tern;complete;;$GPHDT,274.07,T*03;\n").WithoutProblems().Rows[0].Value;

        (built.HeadingDegrees, built.HeadingNorth).ShouldBe((274.07, North.TrueNorth));
    }

    [Theory]
    [InlineData("$GPHDT,123.456,T*00", "a sentence with a right checksum; its characters give 32")]
    [InlineData("$GPHDT,274.07,T", "a whole HDT sentence with its checksum, from $ to * and two digits")]
    [InlineData("$GPHDT,274.08,T*03", "a sentence with a right checksum; its characters give 0C")]
    [InlineData(Single, "a HDT sentence; this one is GPGGA")]
    public void A_spoiled_or_other_sentence_is_told(string sentence, string expected)
        => Given.Built(Header + $"A-1;Tern;complete;;{sentence};\n").TheProblem().Expected.ShouldBe(expected);

    [Fact]
    public void What_stands_in_a_column_of_its_own_goes_before_the_sentence()
    {
        var built = Given.Built("Pile No;Barge;Outcome;GGA;Fix;Heading true;HDT\n" + $"A-1;Tern;complete;{Single};RTK fixed;33,2;$GPHDT,274.07,T*03\n").WithoutProblems().Rows[0].Value;

        (built.Fix, built.HeadingDegrees).ShouldBe((FixType.RtkFixed, 33.2));
    }
}
