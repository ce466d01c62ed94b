namespace SiteProgress.Exchange.Tests;

public sealed class FileKindGuessTests
{
    [Theory]
    [InlineData(Given.PlannedHeader, FileKind.PlannedPiles)]
    [InlineData(Given.InstallationHeader, FileKind.Installations)]
    [InlineData("Time,Barge,Casing,X recorded,Y recorded,X measured,Y measured,Method,Uncertainty", FileKind.CheckMeasurements)]
    [InlineData("Name;X;Y;Easting;Northing;Standard deviation", FileKind.ControlPoints)]
    public void The_kind_is_told_by_the_header_and_the_stream_stays_where_it_was(string header, FileKind kind)
    {
        var stream = Given.Bytes("# title\n" + header + "\n");

        var guess = FileKindGuess.From(stream, Given.Choices, TestContext.Current.CancellationToken);

        (guess.Kind, guess.Problem).ShouldBe((kind, null));
        stream.Position.ShouldBe(0);
    }

    [Fact]
    public void A_header_that_lacks_a_column_is_still_of_its_kind_so_that_the_reader_can_name_the_column()
    {
        var guess = Guess(SampleFile.Open("bad/04-missing-column.csv"));

        guess.Kind.ShouldBe(FileKind.PlannedPiles);
        guess.Reason.ShouldBe("The header comes nearest to that of planned piles.");
    }

    [Theory]
    [InlineData("bad/01-empty.csv", "a table; the file is empty")]
    [InlineData("bad/02-binary.csv", "a text table (CSV); this is not text at all, since it holds bytes that no text has")]
    [InlineData("bad/03-wrong-delimiter.csv", "a header with the column titles of planned piles, installations, check measurements, control points, sand deliveries, diary, schedule of progress, standard penetration tests, calibrations, water levels, seabed surveys, parted by comma, semicolon or tab")]
    public void A_file_of_no_kind_says_why(string file, string expected)
    {
        var guess = Guess(SampleFile.Open(file));

        guess.Kind.ShouldBe(FileKind.Unknown);
        guess.Problem!.WholeFile.ShouldBeTrue();
        guess.Problem.Expected.ShouldBe(expected);
    }

    [Fact]
    public void A_table_of_something_else_is_of_no_kind()
        => Guess(Given.Bytes("Week,Vessel,Crew,Meals\n12,Tern,night,44\n")).Problem!.Found.ShouldBe("Week,Vessel,Crew,Meals");

    [Theory]
    [InlineData("Time,Casing tip below water [m],Water level [m]")]
    [InlineData("Time,Pile No,Barge,Casing,Casing tip level [m],Sand below casing top [m],Air pressure [bar],Charge [m3],Valve open")]
    [InlineData("Time,Record,Pile No,Barge,Casing,Casing tip level [m],Sand above tip [m]")]
    public void Log_samples_are_told_as_such_and_taken_for_no_other_kind(string header)
    {
        var guess = Guess(Given.Bytes(header + "\n"));

        guess.Kind.ShouldBe(FileKind.PileLogs);
        guess.Reason.ShouldStartWith("The header has the columns of log samples");
        guess.Problem.ShouldBeNull();
    }

    [Fact]
    public void Water_levels_alone_are_no_log()
        => Guess(Given.Bytes("Time,Water level [m]\n")).Kind.ShouldBe(FileKind.WaterLevels);

    private static FileKindGuess Guess(Stream stream)
    {
        using (stream)
            return FileKindGuess.From(stream, Given.Choices, TestContext.Current.CancellationToken);
    }
}
