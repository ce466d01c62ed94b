using System.Text;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.Installations;
using SiteProgress.Exchange.PileSchedules;

namespace SiteProgress.Exchange.Tests;

/// <summary>Unusual and right: the files in the folder of good samples.</summary>
public sealed class SampleFileTests
{
    [Fact]
    public void An_old_code_page_with_thousands_parted_by_points()
    {
        var value = Planned("good/planned-windows-1252.csv");

        (value.Position.First, value.Remark?.Text).ShouldBe((1234.5, "S\u00FCdmole"));
    }

    [Fact]
    public void Thousands_parted_by_spaces_that_do_not_break()
        => Planned("good/planned-no-break-space-thousands.csv").Position
            .ShouldBe(new RecordedPosition(Frame.ProjectedCrs, 392796.601, 6162897.289));

    [Fact]
    public void Millimetres_said_in_the_header()
    {
        var value = Planned("good/planned-millimetres.csv");

        value.Position.ShouldBe(new RecordedPosition(Frame.SiteGrid, 1002.1, 2000));
        value.DiameterMetres.ShouldBe(2);
    }

    [Fact]
    public void A_remark_of_two_lines()
    {
        using var stream = SampleFile.Open("good/installations-quoted-line-breaks.csv");

        var reading = InstallationReader.Read(stream, Given.Choices, TestContext.Current.CancellationToken).WithoutProblems();

        reading.Rows.Select(row => (row.Line, row.Value.Remark?.Text)).ShouldBe([(2, "first line\r\nsecond, with \"marks\""), (4, null)]);
    }

    [Fact]
    public void Every_sample_file_is_told_in_the_README()
    {
        var readme = File.ReadAllText(Path.Combine(SampleFile.Folder, "README.md"), Encoding.UTF8);
        foreach (var file in Directory.GetFiles(SampleFile.Folder, "*.csv", SearchOption.AllDirectories))
            readme.ShouldContain($"`{Path.GetRelativePath(SampleFile.Folder, file).Replace('\\', '/')}`");
    }

    private static AsPlanned Planned(string file)
    {
        using var stream = SampleFile.Open(file);
        return PlannedPileReader.Read(stream, Given.Choices, TestContext.Current.CancellationToken).WithoutProblems().Rows.ShouldHaveSingleItem().Value;
    }
}
