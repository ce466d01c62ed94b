using System.IO.Compression;
using System.Xml.Linq;
using NodaTime;
using Shouldly;
using Xunit;

namespace SiteProgress.Exchange.Tests;

/// <summary>A workbook is read back here as what it is, a ZIP of XML parts (ISO/IEC 29500), not with the library that wrote it.</summary>
public sealed class WorkbookWriterTests
{
    private static readonly XNamespace Sheet = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";

    [Fact]
    public void Numbers_are_numbers_and_texts_are_never_formulas()
    {
        WorkbookWriter workbook = new();
        workbook.Header("Pile No", "Radial [m]", "Attempts", "End (UTC)", "Pile No");
        workbook.Text("=1+2").Number(0.12345, 4).Whole(3).Time(Instant.FromUtc(2026, 3, 30, 9, 0), DateTimeZone.Utc).Text("last").EndRow();
        workbook.Text(null).Number(null, 4).Whole(null).Time(null, DateTimeZone.Utc).Text("x").EndRow();

        XElement[][] rows = Rows(workbook);

        rows.Length.ShouldBe(3);
        rows[0].Select(Text).ShouldBe(["Pile No", "Radial [m]", "Attempts", "End (UTC)", "Pile No (2)"]);
        rows[1].Select(Text).ShouldBe(["=1+2", "0.1234", "3", "2026-03-30T09:00:00+00:00", "last"]);
        (rows[1][1].Attribute("t")?.Value ?? "n").ShouldBe("n");
        rows.SelectMany(row => row).ShouldAllBe(cell => cell.Element(Sheet + "f") == null);
    }

    [Fact]
    public void What_is_no_number_is_refused()
        => Should.Throw<ArgumentOutOfRangeException>(() => new WorkbookWriter().Number(double.NaN, 2));

    private static XElement[][] Rows(WorkbookWriter workbook)
    {
        using MemoryStream bytes = new();
        workbook.Save(bytes);
        bytes.Position = 0;
        using ZipArchive parts = new(bytes, ZipArchiveMode.Read);
        using Stream part = parts.Entries.Single(entry => entry.FullName.EndsWith("sheet1.xml", StringComparison.Ordinal)).Open();
        return XDocument.Load(part).Descendants(Sheet + "row").Select(row => row.Elements(Sheet + "c").ToArray()).ToArray();
    }

    private static string Text(XElement cell) => cell.Value;
}
