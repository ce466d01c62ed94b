using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Ground;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Derivation;

/// <summary>Puts the boreholes of penetration tests on the site grid, each by the adjustment its batch was recorded with.</summary>
public static class PlacedTests
{
    /// <summary>The tests that count, in the order recorded.</summary>
    /// <param name="site">The site.</param>
    public static IReadOnlyList<PlacedTest> Of(DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        if (site.Frames is not { } frames) return [];
        IReadOnlyDictionary<long, int> revisions = site.History.AdjustmentRevisions;
        List<PlacedTest> placed = [];
        foreach (IGrouping<int, BatchRow<PenetrationTest>> together in site.History.PenetrationTests.GroupBy(row => revisions[row.Batch]))
        {
            BatchRow<PenetrationTest>[] rows = [.. together];
            SiteCoordinate?[] at = frames.ToSite(Array.ConvertAll(rows, row => row.Value.Position), together.Key);
            placed.AddRange(rows.Select((row, index) => new PlacedTest(row.Sequence, row.Value, at[index])));
        }

        return [.. placed.OrderBy(one => one.Sequence)];
    }
}
