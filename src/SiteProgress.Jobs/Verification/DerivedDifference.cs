namespace SiteProgress.Jobs.Verification;

/// <summary>How a table that pages read differs from what the records give.</summary>
/// <param name="Table">The table.</param>
/// <param name="Unfounded">Rows that stand in it and do not follow from the records.</param>
/// <param name="Absent">Rows that follow from the records and do not stand in it.</param>
public sealed record DerivedDifference(string Table, long Unfounded, long Absent)
{
    /// <summary>True when there is no difference.</summary>
    public bool Identical => Unfounded == 0 && Absent == 0;

    internal static DerivedDifference[] Of(IReadOnlyList<Storage.Derived.TableDifference> found)
        => [.. found.Select(one => new DerivedDifference(one.Table, one.Unfounded, one.Absent))];
}
