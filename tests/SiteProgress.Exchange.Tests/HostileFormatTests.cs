using System.IO.Compression;
using System.Text;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.GroundInvestigations;
using SiteProgress.Exchange.Installations;
using SiteProgress.Exchange.PileSchedules;
using SiteProgress.Exchange.Tests.Drawings;
using SiteProgress.Exchange.Tests.Workbooks;
using static SiteProgress.Exchange.Tests.Workbooks.XlsxText;

namespace SiteProgress.Exchange.Tests;

/// <summary>
/// Files made to break a reader, each put together here so that none is stored. Every one ends in a sentence that names what was
/// expected, takes no row that is not there, and leaves nothing behind; the message is beside each.
/// </summary>
public sealed class HostileFormatTests : IDisposable
{
    private const string FeatureOf = """{"type":"Feature","geometry":{"type":"Point","coordinates":[7.25,55.5]},"properties":{"Pile No":"A-1","Zone":"A"}}""";
    private const string Titles = "Pile No,Zone,X [m],Y [m]\n";

    private static readonly Dictionary<string, (Func<HostileFormatTests, Stream> Make, string Expected)> Files = new()
    {
        ["zip bomb in a sheet"] = (_ => Book("xl/worksheets/sheet1.xml", Bomb($"<worksheet><sheetData>{Row(1, "Pile No", "Zone", "X [m]", "Y [m]")}", "</sheetData></worksheet>")), "inflates to at most 200 times its size"),
        ["zip bomb in the shared texts"] = (_ => Book("xl/sharedStrings.xml", Bomb("<sst>", "</sst>")), "200 times its size"),
        ["zip bomb in the styles"] = (_ => Book("xl/styles.xml", Bomb("<styleSheet>", "</styleSheet>")), "200 times its size"),
        ["entity bomb"] = (_ => Book("xl/workbook.xml", Xml("<!DOCTYPE lolz [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;\">]><workbook>&b;</workbook>")), "a whole workbook"),
        ["entity of a file of the machine"] = (_ => Book("xl/sharedStrings.xml", Xml("<!DOCTYPE x [<!ENTITY a SYSTEM \"file:///etc/passwd\">]><sst><si><t>&a;</t></si></sst>")), "a whole workbook"),
        ["entity bomb in LandXML"] = (_ => Text("<!DOCTYPE x [<!ENTITY a \"aaaa\">]><LandXML><CgPoints><CgPoint name=\"&a;\">1 2</CgPoint></CgPoints></LandXML>"), "a whole LandXML"),
        ["shared text out of range"] = (_ => Of(Row(1, "Pile No", "Zone", "X [m]", "Y [m]") + "<row r=\"2\"><c r=\"A2\" t=\"s\"><v>99</v></c></row>").ToStream(), "cells name texts it has"),
        ["shared texts that are the sheet itself"] = (_ => Book("xl/_rels/workbook.xml.rels", Xml("<Relationships><Relationship Id=\"r1\" Type=\"x/worksheet\" Target=\"worksheets/sheet1.xml\"/><Relationship Id=\"s\" Type=\"x/sharedStrings\" Target=\"worksheets/sheet1.xml\"/></Relationships>"), "<row r=\"1\"><c t=\"s\"><v>0</v></c><c t=\"s\"><v>1</v></c></row>"), "cells name texts it has"),
        ["references in a circle"] = (_ => Book("xl/_rels/workbook.xml.rels", Xml("<Relationships><Relationship Id=\"r1\" Type=\"x/worksheet\" Target=\"workbook.xml\"/></Relationships>")), "a header with the column titles"),
        ["references out of the archive"] = (_ => Book("xl/_rels/workbook.xml.rels", Xml("<Relationships><Relationship Id=\"r1\" Type=\"x/worksheet\" Target=\"../../../../etc/passwd\"/></Relationships>")), "a workbook with a sheet"),
        ["a sheet that is not there"] = (_ => Book("xl/_rels/workbook.xml.rels", Xml("<Relationships/>")), "a workbook with a sheet"),
        ["a workbook cut in half"] = (_ => Cut(Of(Row(1, "Pile No", "Zone")).ToStream(), 0.5), "its end is missing"),
        ["a workbook with a broken byte"] = (_ => Spoiled(Of(Row(1, "Pile No", "Zone", "X [m]", "Y [m]") + Row(2, "A-1", "A", "1", "2")).ToStream()), "seems to be damaged"),
        ["a zip archive of something else"] = (_ => Zip("readme.txt", "hello"), "a zip archive without one"),
        ["an archive of 1,001 entries"] = (_ => Zip([.. Enumerable.Range(0, 1_001).Select(number => ($"{number}.xml", "x"))]), "at most 1,000 entries"),
        ["an archive that lies about its entries"] = (_ => Lying(Of(Row(1, "Pile No", "Zone")).ToStream()), "list of entries lies at its end"),
        ["a path in the names of an archive"] = (_ => Zip("../../../tmp/evil.xlsx", "x"), "a zip archive without one"),
        ["a cell of a megabyte"] = (_ => Of($"<row r=\"1\"><c t=\"inlineStr\"><is><t>{new string('a', 1 << 20)}</t></is></c></row>").ToStream(), "at most 32,767 characters"),
        ["an attribute of a megabyte"] = (_ => Of($"<row r=\"1\" spans=\"{Noise(1 << 20)}\"/>").ToStream(), "tags of at most 64 kB"),
        ["elements within each other without end"] = (_ => Of(string.Concat(Enumerable.Repeat("<x>", 20_000))).ToStream(), "at most 100 elements"),
        ["rows numbered backwards"] = (_ => Of(Row(5, "Pile No", "Zone", "X [m]", "Y [m]") + Row(2, "A-1", "A", "1", "2")).ToStream(), "numbered upwards"),
        ["a cell without a column"] = (_ => Of("<row r=\"1\"><c r=\"7\"><v>1</v></c></row>").ToStream(), "cells named A1"),
        ["an old workbook"] = (_ => new MemoryStream([0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1, .. new byte[600]]), "an old spreadsheet workbook"),
        ["a PDF called csv"] = (_ => Text("%PDF-1.7\n1 0 obj"), "a PDF document"),
        ["a picture"] = (_ => new MemoryStream([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, .. new byte[100]]), "a picture"),
        ["JSON nested 100,000 deep"] = (_ => Text("{\"type\":\"FeatureCollection\",\"features\":[" + new string('[', 100_000)), "features"),
        ["JSON nested in a property"] = (_ => Text("{\"type\":\"FeatureCollection\",\"features\":[{\"properties\":" + new string('[', 100_000)), "a whole GeoJSON"),
        ["JSON nested beside the features"] = (_ => Text("{\"x\":" + new string('[', 100_000)), "a whole GeoJSON"),
        ["JSON cut off"] = (_ => Text("{\"type\":\"FeatureCollection\",\"features\":[" + FeatureOf), "seems to be damaged or cut off"),
        ["JSON that is no GeoJSON"] = (_ => Text("{\"piles\":[{\"no\":\"A-1\"}]}"), "FeatureCollection"),
        ["a feature of 17 megabytes"] = (_ => Text("{\"type\":\"FeatureCollection\",\"features\":[{\"properties\":{\"a\":\"" + new string('a', 17 << 20)), "at most 16 MB"),
        ["features with 300 properties"] = (_ => Text("{\"type\":\"FeatureCollection\",\"features\":[{\"properties\":{" + string.Join(',', Enumerable.Range(0, 300).Select(number => $"\"p{number}\":1")) + "}}]}"), "at most 254 properties"),
        ["GeoJSON with NaN and Infinity"] = (_ => Text("{\"type\":\"FeatureCollection\",\"features\":[{\"type\":\"Feature\",\"geometry\":{\"type\":\"Point\",\"coordinates\":[NaN,Infinity]}}]}"), "a whole GeoJSON"),
        ["XML of another kind"] = (_ => Text("<html><body>sign in</body></html>"), "XML of another kind"),
        ["XML cut off"] = (_ => Text("<LandXML><CgPoints><CgPoint name=\"A-1\">1 2"), "a whole LandXML"),
        ["a database that is no GeoPackage"] = (test => test.Database("create table piles (no text);"), "a database of another kind"),
        ["a GeoPackage whose layer is a view"] = (test => test.Database(Package + "create view piles as with recursive n(x) as (select 1 union all select x + 1 from n) select x as \"Pile No\" from n; insert into gpkg_contents values ('piles', 'attributes');"), "views are not read"),
        ["a GeoPackage with computed columns and triggers"] = (test => test.Database(Package + "create table piles (x, y generated always as (zeroblob(900000000)) virtual); create trigger t after insert on piles begin select writefile('/tmp/evil', x) from piles; end; insert into gpkg_contents values ('piles', 'attributes');"), "a header with the column titles"),
        ["a GeoPackage with a value of two megabytes"] = (test => test.Database(Package + "create table piles (\"Pile No\", \"Zone\", \"X\", \"Y\"); insert into piles values (zeroblob(2000000), 'A', 1, 2); insert into gpkg_contents values ('piles', 'attributes');"), "seems to be damaged"),
        ["a database cut in half"] = (test => Cut(test.Database(Package + "create table piles (a); insert into piles select randomblob(900) from (with recursive n(x) as (select 1 union all select x + 1 from n where x < 200) select x from n); insert into gpkg_contents values ('piles', 'attributes');"), 0.3), "seems to be damaged"),
        ["a database of corrupt pages"] = (test => Spoiled(test.Database(Package)), "a whole GeoPackage"),
        ["only the mark of a database"] = (_ => Text("SQLite format 3\0"), "a whole GeoPackage"),
        ["a drawing whose blocks hold each other"] = (_ => Text(DrawingTests.Drawing(Block("A", "B") + Block("B", "A"), DrawingTests.Insert("A", 0, 0))), "blocks within each other at most 16 deep"),
        ["a drawing of ten times ten blocks"] = (_ => Text(DrawingTests.Drawing(string.Concat(Enumerable.Range(0, 12).Select(level => Block($"L{level}", [.. Enumerable.Repeat($"L{level + 1}", 10)]))), DrawingTests.Insert("L0", 0, 0))), "at most 10000 points"),
        ["a drawing with a line of a megabyte"] = (_ => Text("  0\r\nSECTION\r\n  2\r\n" + new string('a', 1 << 20)), "lines have at most 4096 characters"),
        ["a drawing with a word for a number"] = (_ => Text(DrawingTests.Drawing("", DrawingTests.Pairs((0, "POINT"), (10, "NaN"), (20, "1")))), "a number on line 8"),
        ["a drawing with a word for a group code"] = (_ => Text("  0\r\nSECTION\r\nhello\r\nworld\r\n"), "a group code on line 3"),
        ["a drawing cut off"] = (_ => Text(DrawingTests.Drawing("", DrawingTests.Point(1, 2))[..^20]), "cut off"),
        ["a binary drawing"] = (_ => new MemoryStream([.. "AutoCAD Binary DXF\r\n\u001a\0"u8, .. new byte[200]]), "in ASCII; this is a binary one"),
        ["an AGS4 file without its groups"] = (_ => Text("\"GROUP\",\"\"\r\n"), "AGS4 rule 4"),
        ["an AGS4 file with an open quotation mark"] = (_ => Text("\"GROUP\",\"LOCA\"\r\n\"HEADING\",\"LOCA_ID\r\n"), "AGS4 rules 4 and 5"),
        ["a table of 1,000 columns"] = (_ => Text(string.Join(',', Enumerable.Range(0, 1_000).Select(number => $"C{number}")) + "\n1\n"), "a header with the column titles"),
        ["a table of zeros"] = (_ => new MemoryStream(new byte[100_000]), "bytes that no text has"),
    };

    private readonly OutsideTools _tools = new();

    private static string Package => "create table gpkg_contents (table_name text, data_type text); create table gpkg_spatial_ref_sys (srs_id integer, organization text, organization_coordsys_id integer);";

    public static TheoryData<string> Names => [.. Files.Keys];

    [Fact]
    public void There_are_at_least_fifty() => Files.Count.ShouldBeGreaterThanOrEqualTo(50);

    [Theory]
    [MemberData(nameof(Names))]
    public void It_is_refused_with_what_was_expected_and_gives_no_row(string name)
    {
        var (make, expected) = Files[name];
        var choices = _tools.Choices with { Frame = Frame.SiteGrid, MostRows = 10_000 };
        using var stream = make(this);

        var guess = FileKindGuess.From(stream, choices, TestContext.Current.CancellationToken);
        guess.Reason.ShouldNotBeNullOrWhiteSpace();
        var planned = PlannedPileReader.Read(stream, choices, TestContext.Current.CancellationToken);
        stream.Position = 0;
        var built = InstallationReader.Read(stream, choices, TestContext.Current.CancellationToken);
        stream.Position = 0;
        var tested = PenetrationTestReader.Read(stream, choices, TestContext.Current.CancellationToken);

        planned.IsRefused.ShouldBeTrue(planned.ProblemCount > 0 ? planned.Problems[0].Sentence : "not even a problem");
        planned.Problems[0].Expected.ShouldContain(expected);
        planned.Problems[0].Expected.ShouldNotContain("Exception");
        (planned.Rows.Count, built.Rows.Count, tested.Rows.Count).ShouldBe((0, 0, 0));
    }

    [Fact]
    public void A_line_of_a_gigabyte_costs_its_own_row_and_no_memory()
    {
        using var stream = new GeneratedStream(Encoding.UTF8.GetBytes(Titles + "A-1,A,1,2\nA-2,A,"), (byte)'1', 1L << 30, "\nA-3,A,3,4\n"u8.ToArray());

        var reading = PlannedPileReader.Read(stream, Given.Choices, TestContext.Current.CancellationToken);

        reading.Rows.Select(row => row.Value.Number).ShouldBe(["A-1", "A-3"]);
        reading.TheProblem().Line.ShouldBe(3);
    }

    [Fact]
    public void Numbers_that_are_none_are_told_in_every_format()
    {
        var book = Of(Row(1, "Pile No", "Zone", "X [m]", "Y [m]") + Row(2, "A-1", "A", "NaN", "2") + Row(3, "A-2", "A", "1E400", "2") + Row(4, "A-3", "A", "1", "2"));

        var reading = PlannedPileReader.Read(book.ToStream(), Given.Choices, TestContext.Current.CancellationToken);

        reading.Rows.Single().Value.Number.ShouldBe("A-3");
        reading.Problems.Select(problem => problem.Line).ShouldBe([2, 3]);
    }

    [Fact]
    public void A_cell_far_to_the_right_is_told_with_its_row()
    {
        var book = Of(Row(1, "Pile No", "Zone", "X [m]", "Y [m]") + Row(2, "A-1", "A", "1", "2") + "<row r=\"3\"><c r=\"A3\" t=\"inlineStr\"><is><t>A-2</t></is></c><c r=\"XFD3\"><v>1</v></c></row>");

        var reading = PlannedPileReader.Read(book.ToStream(), Given.Choices, TestContext.Current.CancellationToken);

        reading.Rows.Single().Value.Number.ShouldBe("A-1");
        reading.TheProblem().Expected.ShouldBe("at most 256 cells in a line");
    }

    public void Dispose() => _tools.Dispose();

    private Stream Database(string sql)
    {
        var path = _tools.Path($"{Guid.NewGuid():N}.gpkg");
        using (var connection = new Microsoft.Data.Sqlite.SqliteConnection($"Data Source={path};Pooling=False"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
#pragma warning disable CA2100 // The texts are those of this class.
            command.CommandText = sql;
#pragma warning restore CA2100
            command.ExecuteNonQuery();
        }

        return new MemoryStream(File.ReadAllBytes(path));
    }

    private static MemoryStream Text(string text) => new(Encoding.UTF8.GetBytes(text));

    private static byte[] Xml(string text) => Encoding.UTF8.GetBytes(text);

    private static string Noise(int length) => Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(BitConverter.GetBytes(length))) is var piece ? string.Concat(Enumerable.Range(0, length / 8).Select(at => (at * 2654435761 % 4294967296).ToString("x8", System.Globalization.CultureInfo.InvariantCulture))) + piece : "";

    /// <summary>Forty megabytes of blanks, which deflate to about a thousandth.</summary>
    private static byte[] Bomb(string begin, string end) => Encoding.UTF8.GetBytes(begin + new string(' ', 40 << 20) + end);

    private static MemoryStream Book(string part, byte[] content, string? rows = null)
    {
        var parts = new Dictionary<string, byte[]>();
        using (var zip = new ZipArchive(Of(rows ?? Row(1, "Pile No", "Zone", "X [m]", "Y [m]")).ToStream()))
        {
            foreach (var entry in zip.Entries)
            {
                using var bytes = new MemoryStream();
                using var stream = entry.Open();
                stream.CopyTo(bytes);
                parts[entry.FullName] = bytes.ToArray();
            }
        }

        parts[part] = content;
        var made = new MemoryStream();
        using (var zip = new ZipArchive(made, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, bytes) in parts)
            {
                using var entry = zip.CreateEntry(name, CompressionLevel.Optimal).Open();
                entry.Write(bytes);
            }
        }

        made.Position = 0;
        return made;
    }

    private static MemoryStream Zip(string name, string text) => Zip([(name, text)]);

    private static MemoryStream Zip((string Name, string Text)[] entries)
    {
        var made = new MemoryStream();
        using (var zip = new ZipArchive(made, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, text) in entries)
                Add(zip, name, text);
        }

        made.Position = 0;
        return made;
    }

    private static MemoryStream Cut(Stream stream, double share)
    {
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        return new MemoryStream(bytes.ToArray()[..(int)(share * bytes.Length)]);
    }

    /// <summary>Every 97th byte of the middle changed.</summary>
    private static MemoryStream Spoiled(Stream stream)
    {
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        var spoiled = bytes.ToArray();
        for (var at = spoiled.Length / 10; at < spoiled.Length - 600; at += 97)
            spoiled[at] ^= 0x5A;
        return new MemoryStream(spoiled);
    }

    /// <summary>The archive's own end says that its list of entries begins elsewhere.</summary>
    private static MemoryStream Lying(MemoryStream archive)
    {
        var bytes = archive.ToArray();
        var end = bytes.AsSpan().LastIndexOf("PK\u0005\u0006"u8);
        bytes[end + 16] ^= 0x01;
        return new MemoryStream(bytes);
    }

    private static string Block(string name, params string[] inserts)
        => DrawingTests.Pairs((0, "BLOCK"), (8, "0"), (2, name), (10, "0"), (20, "0")) + string.Concat(inserts.Select(insert => DrawingTests.Insert(insert, 1, 1))) + DrawingTests.Pairs((0, "ENDBLK"));
}
