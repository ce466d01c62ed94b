using System.Text;
using CsCheck;
using SiteProgress.Exchange.CheckMeasurements;
using SiteProgress.Exchange.ControlPoints;
using SiteProgress.Exchange.Installations;
using SiteProgress.Exchange.PileSchedules;

namespace SiteProgress.Exchange.Tests;

/// <summary>No bytes make a reader throw, and whatever it says can be shown to a person.</summary>
public sealed class HostileFileTests
{
    private static readonly string[] Pieces =
    [
        ",", ";", "\t", "\"", "\"\"", "\n", "\r\n", "\r", " ", "#", "=", "A-1", "A", "R1", "Tern", "1", "1,5", "1.5", "-12.40", "NaN", "1e400",
        "2026-03-10 07:52", "2026-03-10T07:52Z", "13/04/2026 07:00", "04/13/2026 07:00", "9999-12-31 23:59", "0001-01-01 00:00+14:00",
        "complete", "\0", "\uFFFD", "\u00A0", "\uD800", "Pile No", "Zone", "X [m]", "Y [m]", "Start", "Outcome", "[", "]", "[]", "X [",
    ];

    private static readonly Gen<byte[]> AnyBytes = Gen.Byte.Array[0, 600];

    // Half of the tables have as many cells in a row as the header, so that the cells themselves are read.
    private static readonly Gen<byte[]> AnyTable = Gen.Select(
        Gen.OneOf(Given.PlannedHeader, Given.InstallationHeader, "Time;Barge;Casing;X recorded;Y recorded;X measured;Y measured;Method;Uncertainty", "Name,X,Y,Easting,Northing,Standard deviation", ""),
        Gen.OneOf(Pieces).Array[0, 80],
        Gen.OneOf<Encoding>(new UTF8Encoding(true), new UTF8Encoding(false), Encoding.Unicode, Encoding.BigEndianUnicode, Encoding.Latin1),
        Gen.Bool,
        (header, pieces, encoding, inRows) => encoding.GetBytes($"{header}\n{(inRows ? InRows(header, pieces) : string.Concat(pieces))}"));

    private static readonly Gen<byte[]> SpoiledTable = Gen.Select(
        Gen.Const("R1;A-0001;Tern;1;2026-03-10 07:00;2026-03-10 08:00;1,5;2,5;-28,1;complete\n"),
        Gen.Select(Gen.Int[0, 200], Gen.Byte).Array[1, 6],
        (row, changes) =>
        {
            var bytes = Encoding.UTF8.GetBytes($"{Given.InstallationHeader}\n{row}{row}");
            foreach (var (at, value) in changes)
                bytes[at % bytes.Length] = value;
            return bytes;
        });

    [Fact]
    public void No_bytes_make_a_reader_throw() => AnyBytes.Sample(ShouldBeJudged, iter: 1_500);

    [Fact]
    public void No_table_makes_a_reader_throw() => AnyTable.Sample(ShouldBeJudged, iter: 1_500);

    [Fact]
    public void No_spoiled_bytes_in_a_good_table_make_a_reader_throw() => SpoiledTable.Sample(ShouldBeJudged, iter: 1_000);

    [Fact]
    public void A_good_file_cut_anywhere_never_yields_a_row_that_was_not_there_unless_it_warns()
    {
        const string row1 = "R1;A-0001;Tern;1;2026-03-10 07:00;2026-03-10 08:00;1,5;2,5;complete;-28,15";
        const string header = "Record;Pile No;Barge;Casing;Start;End;X touch-down [m];Y touch-down [m];Outcome;Tip level [m]";
        var whole = $"{header}\n{row1}\n{row1.Replace("R1", "R2", StringComparison.Ordinal)}\n";
        var good = Given.Built(whole).WithoutProblems().Rows.Select(row => row.Value).ToHashSet();

        for (var length = header.Length; length <= whole.Length; length++)
        {
            var reading = Given.Built(whole[..length]);
            var news = reading.Rows.Where(row => !good.Contains(row.Value)).ToArray();
            news.Length.ShouldBeLessThanOrEqualTo(reading.WarningCount, whole[..length]);
        }
    }

    [Fact]
    public void A_thousand_columns_are_refused_as_a_file_without_header()
        => Given.Planned(string.Join(',', Enumerable.Range(0, 1_000).Select(number => $"C{number}")) + "\n1\n").IsRefused.ShouldBeTrue();

    [Fact]
    public void A_message_shows_at_most_80_characters_and_none_that_acts()
    {
        var problem = Given.PlannedRows("A-1,\"\u202Eevil\u0007" + new string('x', 500) + "\",1,2,,,").TheProblem();

        problem.Found!.Length.ShouldBe(80);
        problem.Found.ShouldStartWith("\uFFFDevil\uFFFDxxx");
        problem.Found.ShouldEndWith("x\u2026");
    }

    private static string InRows(string header, string[] pieces)
    {
        var delimiter = header.Contains(';', StringComparison.Ordinal) ? ';' : ',';
        return string.Join('\n', pieces.Chunk(header.Split(delimiter).Length).Select(row => string.Join(delimiter, row)));
    }

    private static void ShouldBeJudged(byte[] bytes)
    {
        var cancellation = CancellationToken.None;
        FileKindGuess.From(new MemoryStream(bytes), Given.Choices, cancellation).Reason.ShouldNotBeNullOrWhiteSpace();
        ShouldBeFit(PlannedPileReader.Read(new MemoryStream(bytes), Given.Choices, cancellation));
        ShouldBeFit(InstallationReader.Read(new MemoryStream(bytes), Given.Choices, cancellation));
        ShouldBeFit(CheckMeasurementReader.Read(new MemoryStream(bytes), Given.Choices, cancellation));
        ShouldBeFit(ControlPointReader.Read(new MemoryStream(bytes), Given.Choices, cancellation));
    }

    private static void ShouldBeFit<T>(TableReading<T> reading)
    {
        if (!reading.IsRefused)
            (reading.Rows.Count + reading.LinesLeftOut.Count).ShouldBe(reading.RowsRead);
        (reading.ProblemCount + reading.WarningCount + reading.Rows.Count).ShouldBeGreaterThanOrEqualTo(reading.RowsRead);
        foreach (var problem in reading.Problems.Concat(reading.Warnings))
        {
            problem.Expected.ShouldNotBeNullOrWhiteSpace();
            (problem.Found ?? "").Length.ShouldBeLessThanOrEqualTo(80);
            (problem.Found ?? "").Any(char.IsControl).ShouldBeFalse();
        }
    }
}
