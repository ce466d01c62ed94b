namespace SiteProgress.Exchange.TextTables;

/// <summary>What the title of a column means in one kind of file.</summary>
/// <param name="Column">The column of the kind.</param>
/// <param name="Unit">Unit as the title names it, with what stands beside it; null where it names none.</param>
/// <param name="IsDepth">True where the numbers are counted down from a surface.</param>
/// <param name="Doubt">What it was taken for and what else it may be; null where there is no doubt.</param>
internal sealed record TitleMeaning(Column Column, string? Unit, bool IsDepth, string? Doubt)
{
    private const int LongestTitle = 120;

    /// <summary>What a title means beyond doubt; null where it means nothing known.</summary>
    /// <param name="layout">The kind of file.</param>
    /// <param name="title">Title as written.</param>
    public static TitleMeaning? Sure(TableLayout layout, string title) => Likeliest(layout, title, (name, unit) =>
        layout.Find(name) is { } column ? On(layout, column, unit, isDepth: false, null)
        : layout.FindDepth(name) is { } depth ? On(layout, depth, unit, isDepth: true, null)
        : null);

    /// <summary>What a title is taken for and asked about; null where it is none of these.</summary>
    /// <param name="layout">The kind of file.</param>
    /// <param name="title">Title as written.</param>
    public static TitleMeaning? InDoubt(TableLayout layout, string title) => Likeliest(layout, title, (name, unit) =>
        layout.FindDoubtful(name) is var (column, doubt) ? On(layout, column, unit, isDepth: false, doubt) : null);

    /// <summary>What a title means where no other title of the file means it; null where it means nothing known.</summary>
    /// <param name="layout">The kind of file.</param>
    /// <param name="title">Title as written.</param>
    /// <param name="isFree">True for a column that no other title means.</param>
    public static TitleMeaning? Loose(TableLayout layout, string title, Func<Column, bool> isFree) => Likeliest(layout, title, (name, unit) =>
        layout.Columns.FirstOrDefault(column => isFree(column) && column.LooseNames.Contains(name)) is { } column ? new TitleMeaning(column, unit, false, null) : null);

    private bool UnitIsKnown => Unit is null || (Column.Quantity, Column.IsTime) switch
    {
        ({ } quantity, _) => quantity.FactorFrom(quantity.Unit == "m" ? LevelUnit.Of(Unit).Unit : Unit) is not null,
        (null, true) => WrittenZone.Of(Unit).IsKnown,
        _ => true,
    };

    /// <summary>The first way to read the title whose unit can be one of the column; where there is none, the first that means a column at all.</summary>
    private static TitleMeaning? Likeliest(TableLayout layout, string title, Func<string, string?, TitleMeaning?> meaning)
    {
        // Every line of the beginning is looked at as if it were the header: numbers, dates and long texts are no titles.
        if (title.Length > LongestTitle || !title.Any(char.IsLetter))
            return null;
        TitleMeaning? odd = null;
        foreach (var (name, unit) in ColumnTitle.Readings(title))
        {
            foreach (var found in layout.Bare(name).Select(bare => bare.Length == 0 ? null : meaning(bare, unit)).OfType<TitleMeaning>())
            {
                if (found.UnitIsKnown)
                    return found;
                odd ??= found;
            }
        }

        return odd;
    }

    /// <summary>"Tip [m below water]" is the depth below water, not the level.</summary>
    private static TitleMeaning On(TableLayout layout, Column column, string? unit, bool isDepth, string? doubt)
    {
        if (unit is null || column.Quantity != Quantity.Level || LevelUnit.Of(unit) is not { Below: { } surface } parted)
            return new TitleMeaning(column, unit, isDepth, doubt);
        return layout.Below(column, surface) is { } below
            ? new TitleMeaning(below, parted.Unit, false, null)
            : new TitleMeaning(column, unit, true, null);
    }
}
