using System.IO.Compression;
using System.Text;
using CsCheck;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.GroundInvestigations;
using SiteProgress.Exchange.Installations;
using SiteProgress.Exchange.PileSchedules;
using SiteProgress.Exchange.Tests.Drawings;
using SiteProgress.Exchange.Tests.Workbooks;
using static SiteProgress.Exchange.Tests.Workbooks.XlsxText;

namespace SiteProgress.Exchange.Tests;

/// <summary>Good files of every format with bytes changed, cut out or doubled at chance: no reader throws, and whatever it says can be shown.</summary>
public sealed class SpoiledFormatTests : IDisposable
{
    private static readonly Dictionary<string, byte[]> Good = new()
    {
        ["xlsx"] = Of(Row(1, "Pile No", "Zone", "X [m]", "Y [m]") + Row(2, "A-1", "A", "1000.5", "2000") + Row(3, "A-2", "A", "1002.1", "2000")).ToStream().ToArray(),
        ["geojson"] = Encoding.UTF8.GetBytes("""{"type":"FeatureCollection","features":[{"type":"Feature","geometry":{"type":"Point","coordinates":[7.25,55.5]},"properties":{"Pile No":"A-1","Zone":"A"}},{"type":"Feature","geometry":null,"properties":null}]}"""),
        ["landxml"] = Encoding.UTF8.GetBytes("<?xml version=\"1.0\" encoding=\"UTF-8\"?><LandXML><Units><Metric linearUnit=\"meter\"/></Units><CgPoints><CgPoint name=\"A-1\">2 1 0</CgPoint><CgPoint name=\"A-2\">2 3</CgPoint></CgPoints></LandXML>"),
        ["dxf"] = Encoding.ASCII.GetBytes(DrawingTests.Drawing(DrawingTests.Pairs((0, "BLOCK"), (2, "B"), (10, "0"), (20, "0")) + DrawingTests.Point(1, 1) + DrawingTests.Pairs((0, "ENDBLK")), DrawingTests.Point(1, 2), DrawingTests.Insert("B", 3, 4), DrawingTests.Insert("P", 5, 6, ("PILE_NO", "A-1")))),
        ["ags"] = Encoding.ASCII.GetBytes("\"GROUP\",\"LOCA\"\r\n\"HEADING\",\"LOCA_ID\",\"LOCA_NATE\",\"LOCA_NATN\"\r\n\"UNIT\",\"\",\"m\",\"m\"\r\n\"TYPE\",\"ID\",\"2DP\",\"2DP\"\r\n\"DATA\",\"BH1\",\"1\",\"2\"\r\n\"GROUP\",\"ISPT\"\r\n\"HEADING\",\"LOCA_ID\",\"ISPT_TOP\",\"ISPT_NVAL\"\r\n\"UNIT\",\"\",\"m\",\"\"\r\n\"TYPE\",\"ID\",\"2DP\",\"0DP\"\r\n\"DATA\",\"BH1\",\"3.5\",\"12\"\r\n"),
    };

    private static readonly Gen<(int At, byte Value, int Kind)[]> Changes = Gen.Select(Gen.Int[0, 100_000], Gen.Byte, Gen.Int[0, 3]).Array[1, 8];

    private readonly OutsideTools _tools = new();

    public static TheoryData<string> Formats => ["xlsx", "geojson", "landxml", "dxf", "ags"];

    [Theory]
    [MemberData(nameof(Formats))]
    public void No_change_of_bytes_makes_a_reader_throw(string format)
        => Changes.Sample(changes => ShouldBeJudged(Spoil(Good[format], changes), _tools.Choices with { Frame = Frame.SiteGrid }), iter: 400);

    [Fact]
    public void No_change_within_a_sheet_makes_a_reader_throw()
    {
        var sheet = "<worksheet><sheetData>" + Row(1, "Pile No", "Zone", "X [m]", "Y [m]") + Row(2, "A-1", "A", "1000.5", "2000") + "</sheetData></worksheet>";
        Changes.Sample(
            changes =>
            {
                using var bytes = Of("").ToStream();
                ShouldBeJudged(Replaced(bytes, "xl/worksheets/sheet1.xml", Spoil(Encoding.UTF8.GetBytes(sheet), changes)), Given.Choices);
            }, iter: 300);
    }

    [Fact]
    public void No_change_of_a_database_makes_a_reader_throw()
    {
        using var stream = _tools.Ogr("GPKG", "points.gpkg", "-a_srs", "EPSG:25832");
        using var whole = new MemoryStream();
        stream.CopyTo(whole);
        var good = whole.ToArray();
        Gen.Select(Gen.Int[0, good.Length - 1], Gen.Byte, Gen.Int[0, 2]).Array[1, 40].Sample(changes => ShouldBeJudged(Spoil(good, changes), _tools.Choices), iter: 60);
    }

    public void Dispose() => _tools.Dispose();

    private static byte[] Replaced(MemoryStream archive, string name, byte[] content)
    {
        using (var zip = new ZipArchive(archive, ZipArchiveMode.Update, leaveOpen: true))
        {
            zip.GetEntry(name)!.Delete();
            using var entry = zip.CreateEntry(name).Open();
            entry.Write(content);
        }

        return archive.ToArray();
    }

    private static byte[] Spoil(byte[] good, (int At, byte Value, int Kind)[] changes)
    {
        var bytes = good.ToList();
        foreach (var (place, value, kind) in changes)
        {
            if (bytes.Count == 0)
                break;
            var at = place % bytes.Count;
            switch (kind)
            {
                case 0: bytes[at] = value; break;
                case 1: bytes[at] ^= (byte)(1 << (value % 8)); break;
                case 2: bytes.RemoveRange(at, Math.Min(value % 20, bytes.Count - at)); break;
                default: bytes.InsertRange(at, bytes.GetRange(at, Math.Min(value % 20, bytes.Count - at))); break;
            }
        }

        return [.. bytes];
    }

    private static void ShouldBeJudged(byte[] bytes, ReadingChoices choices)
    {
        FileKindGuess.From(new MemoryStream(bytes), choices, CancellationToken.None).Reason.ShouldNotBeNullOrWhiteSpace();
        ShouldBeFit(PlannedPileReader.Read(new MemoryStream(bytes), choices, CancellationToken.None));
        ShouldBeFit(InstallationReader.Read(new MemoryStream(bytes), choices, CancellationToken.None));
        ShouldBeFit(PenetrationTestReader.Read(new MemoryStream(bytes), choices, CancellationToken.None));
    }

    private static void ShouldBeFit<T>(TableReading<T> reading)
    {
        if (reading.IsRefused)
            reading.Rows.ShouldBeEmpty();
        foreach (var problem in reading.Problems.Concat(reading.Warnings))
        {
            problem.Expected.ShouldNotBeNullOrWhiteSpace();
            problem.Expected.ShouldNotContain("Exception");
            (problem.Found ?? "").Any(char.IsControl).ShouldBeFalse();
        }

        reading.Header?.Columns.ShouldAllBe(column => !column.Title.Any(char.IsControl));
    }
}
