using System.Globalization;
using SiteProgress.Core.Ground;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.GroundInvestigations;

/// <summary>Reads standard penetration tests from an AGS4 file or a table.</summary>
public static class PenetrationTestReader
{
    /// <summary>Reads tests. Borehole and depth must be there, and at least one of N and the result as reported.</summary>
    /// <param name="stream">The file.</param>
    /// <param name="choices">What to read with.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>Tests with positions in the frame of the file, depths in metres below the ground, and every problem by line.</returns>
    /// <exception cref="OperationCanceledException">The reading was ended.</exception>
    public static TableReading<PenetrationTest> Read(Stream stream, ReadingChoices choices, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(choices);
        var layout = new PenetrationTestLayout(choices.GridAxes);
        var lines = new Dictionary<(string, double), long>();
        return TableWalk<PenetrationTest>.Read(stream, choices, layout, row => ReadRow(row, layout, lines), cancellation);
    }

    private static PenetrationTest? ReadRow(RowCells row, PenetrationTestLayout layout, Dictionary<(string, double), long> lines)
    {
        var location = row.Text(layout.Location, 100);
        var depth = row.Number(layout.TopDepth);
        var blows = row.Whole(layout.Blows, 0, 1_000);
        var reported = row.Text(layout.Reported, 200);
        var testedOn = DayCell.ReadAside(row, layout.TestedOn);
        row.Require(layout.Location, "a borehole");
        row.Require(layout.TopDepth, "the depth of the test below the ground");
        if (!row.IsBad && blows is null && reported is null)
            row.Problem(layout.Blows.Title, "", "N, or the result as reported");
        var test = new PenetrationTest(
            location ?? "", row.Position(layout.Place), row.Number(layout.GroundLevel), depth ?? 0, blows,
            row.Whole(layout.Seating, 0, 1_000), row.Whole(layout.Main, 0, 1_000), row.Whole(layout.Penetration, 0, 1_000),
            row.Number(layout.EnergyRatio), row.Text(layout.Type, 20), reported, row.Text(layout.Remark, 2_000), testedOn);
        if (row.IsBad)
            return null;

        if (!lines.TryAdd((test.Location, test.TopDepthMetres), row.Line))
            row.Warn(layout.TopDepth.Title, test.Location, string.Create(CultureInfo.InvariantCulture, $"one test at each depth of a borehole; line {lines[(test.Location, test.TopDepthMetres)]} has one there"));
        return test;
    }
}
