using SiteProgress.Core.Piles;

namespace SiteProgress.Exchange.TextTables;

/// <summary>One column a kind of file may have.</summary>
internal sealed class Column
{
    /// <summary>Place of the column within its layout.</summary>
    public required int Index { get; init; }

    /// <summary>Title, as messages name it.</summary>
    public required string Title { get; init; }

    /// <summary>Titles that mean this column, normalised.</summary>
    public required IReadOnlyList<string> Names { get; init; }

    /// <summary>Titles that mean this column where no other title does, normalised.</summary>
    public IReadOnlyList<string> LooseNames { get; init; } = [];

    /// <summary>Titles that mean the same place counted down from a surface, normalised.</summary>
    public IReadOnlyList<string> DepthNames { get; init; } = [];

    /// <summary>The title as addresses and remembered choices write it.</summary>
    public string Key => TableLayout.Normalise(Title);

    /// <summary>What its numbers measure; null for text, whole numbers and times.</summary>
    public Quantity? Quantity { get; init; }

    /// <summary>True for dates and times.</summary>
    public bool IsTime { get; init; }

    /// <summary>True for dates that stand beside times of day in columns of their own.</summary>
    public bool IsDay { get; init; }

    /// <summary>True where the file cannot be used without it.</summary>
    public bool Required { get; init; }

    /// <summary>True for a column that most files rightly lack, so that its absence is not told.</summary>
    public bool Rare { get; init; }

    /// <summary>What the column is one way of writing; the title itself where there is one way.</summary>
    public required string Subject { get; init; }

    /// <summary>True for one of the columns of a position: its absence is told with the position.</summary>
    public bool OfPosition { get; init; }
}

/// <summary>The columns a position may stand in: one pair for each frame.</summary>
/// <param name="Index">Place of the position within its layout.</param>
/// <param name="Title">Title, as messages name it.</param>
/// <param name="Required">True where the file cannot be used without it.</param>
/// <param name="Pairs">Columns by frame.</param>
internal sealed record PositionColumns(
    int Index, string Title, bool Required, IReadOnlyList<(Frame Frame, Column First, Column Second)> Pairs);

/// <summary>The columns of one kind of file. Titles are compared without regard to case, blanks, underscores and hyphens.</summary>
/// <param name="title">What such a file holds, in words.</param>
/// <param name="axes">Names of the axes of the site grid.</param>
internal abstract class TableLayout(string title, GridAxes axes)
{
    private readonly List<Column> _columns = [];
    private readonly List<PositionColumns> _positions = [];
    private readonly List<(string Name, Column Column, string Doubt)> _doubtful = [];

    /// <summary>What such a file holds, in words.</summary>
    public string Title { get; } = title;

    /// <summary>All columns.</summary>
    public IReadOnlyList<Column> Columns => _columns;

    /// <summary>The column of headings whose title names no north; null where the kind has none.</summary>
    public virtual Column? HeadingWithoutNorth => null;

    /// <summary>The column of dates that belong to all times of day of the row; null where the kind has none.</summary>
    public Column? DayOfTimes { get; private set; }

    /// <summary>Normalised words that add nothing in this kind of file: "as built" in one of installations.</summary>
    protected virtual IReadOnlyList<string> FillWords => [];

    /// <summary>All positions.</summary>
    public IReadOnlyList<PositionColumns> Positions => _positions;

    /// <summary>Title without case, blanks and marks, for comparison.</summary>
    /// <param name="title">Title as written, without a unit.</param>
    public static string Normalise(string title)
        => string.Concat(title.Where(char.IsLetterOrDigit)).ToLowerInvariant();

    /// <summary>The column a normalised title means, or null.</summary>
    /// <param name="name">Normalised title.</param>
    public Column? Find(string name) => name.Length == 0 ? null : _columns.Find(column => column.Names.Contains(name));

    /// <summary>The column that a normalised title means as a depth, or null.</summary>
    /// <param name="name">Normalised title.</param>
    public Column? FindDepth(string name) => name.Length == 0 ? null : _columns.Find(column => column.DepthNames.Contains(name));

    /// <summary>What a title may mean in this kind of file and is in doubt, or null.</summary>
    /// <param name="name">Normalised title.</param>
    public (Column Column, string Doubt)? FindDoubtful(string name)
        => _doubtful.Find(one => one.Name == name) is { Column: { } column, Doubt: var doubt } ? (column, doubt) : null;

    /// <summary>The column of depths that stands for a level where the title names what it is counted from; null where the kind has none.</summary>
    /// <param name="level">Column of levels.</param>
    /// <param name="surface">What depths are counted from: "water", "deck", "antenna".</param>
    public virtual Column? Below(Column level, string surface) => null;

    /// <summary>A normalised title as it stands, and without a word at its ends that adds nothing.</summary>
    /// <param name="name">Normalised title.</param>
    public IEnumerable<string> Bare(string name)
    {
        yield return name;
        foreach (var word in FillWords)
        {
            if (name.Length > word.Length && name.StartsWith(word, StringComparison.Ordinal))
                yield return name[word.Length..];
            if (name.Length > word.Length && name.EndsWith(word, StringComparison.Ordinal))
                yield return name[..^word.Length];
        }
    }

    /// <summary>The column of a key, or null.</summary>
    /// <param name="key">Key of a column.</param>
    public Column? OfKey(string key) => _columns.Find(column => column.Key == key);

    /// <summary>A column of text or whole numbers.</summary>
    protected Column Text(string title, bool required, params string[] otherNames)
        => Add(title, otherNames, null, isTime: false, required, ofPosition: false);

    /// <summary>A column of text that most files rightly lack.</summary>
    protected Column RareText(string title, params string[] otherNames)
        => Add(title, otherNames, null, isTime: false, required: false, ofPosition: false, rare: true);

    /// <summary>A column of text that loose titles may mean as well, where no other title means it.</summary>
    protected Column NameOf(string title, bool required, string[] otherNames, string[] looseNames)
        => Add(title, otherNames, null, isTime: false, required, ofPosition: false, looseNames);

    /// <summary>A column of levels, which some files write as depths.</summary>
    protected Column Level(string title, string[] otherNames, string[] depthNames, bool required = false)
        => Add(title, otherNames, TextTables.Quantity.Level, isTime: false, required, ofPosition: false, null, depthNames);

    /// <summary>A column of numbers.</summary>
    protected Column Number(string title, Quantity quantity, params string[] otherNames)
        => Add(title, otherNames, quantity, isTime: false, required: false, ofPosition: false);

    /// <summary>A column of numbers without which the file cannot be used.</summary>
    protected Column RequiredNumber(string title, Quantity quantity, params string[] otherNames)
        => Add(title, otherNames, quantity, isTime: false, required: true, ofPosition: false);

    /// <summary>A column of numbers that most files rightly lack.</summary>
    protected Column RareNumber(string title, Quantity quantity, params string[] otherNames)
        => Add(title, otherNames, quantity, isTime: false, required: false, ofPosition: false, rare: true);

    /// <summary>A column of times.</summary>
    protected Column Time(string title, bool required, params string[] otherNames)
        => Add(title, otherNames, null, isTime: true, required, ofPosition: false);

    /// <summary>The column of dates that belong to times of day in columns of their own.</summary>
    protected void DayBeside(params string[] otherNames)
        => DayOfTimes = Add("Date", otherNames, null, isTime: false, required: false, ofPosition: false, rare: true, isDay: true);

    /// <summary>Titles that usually mean a column and may mean something else: they are taken for it, and asked about.</summary>
    /// <param name="column">The column.</param>
    /// <param name="doubt">What the title is taken for and what else it may be, to stand behind the title in a sentence.</param>
    /// <param name="names">The titles.</param>
    protected void InDoubt(Column column, string doubt, params string[] names)
        => _doubtful.AddRange(names.Select(name => (Normalise(name), column, doubt)));

    /// <summary>The columns of a position, in any frame.</summary>
    /// <param name="moment">Word beside the axis, such as "touch-down"; empty for none.</param>
    /// <param name="required">True where the file cannot be used without it.</param>
    /// <param name="frames">Frames it may be written in.</param>
    protected PositionColumns Position(string moment, bool required, params Frame[] frames)
        => Position(moment, required, alsoBare: false, frames);

    /// <summary>The columns of a position, in any frame.</summary>
    /// <param name="moment">Word beside the axis, such as "touch-down"; empty for none.</param>
    /// <param name="required">True where the file cannot be used without it.</param>
    /// <param name="alsoBare">True where axes without a word beside them mean this position, if no other title does.</param>
    /// <param name="frames">Frames it may be written in.</param>
    protected PositionColumns Position(string moment, bool required, bool alsoBare, params Frame[] frames)
    {
        var pairs = frames.Select(frame => Pair(frame, moment, alsoBare)).ToArray();
        var title = moment.Length == 0 ? "position" : $"position {moment}";
        _positions.Add(new PositionColumns(_positions.Count, title, required, pairs));
        return _positions[^1];
    }

    /// <summary>Names of the two axes of a frame, the usual one first.</summary>
    /// <param name="frame">The frame.</param>
    /// <param name="axes">Names of the axes of the site grid.</param>
    public static (string[] First, string[] Second) AxisNames(Frame frame, GridAxes axes) => frame switch
    {
        Frame.SiteGrid => ([axes.First, "X", "Site X", "Local X", "X coordinate", "X coord", "Coord X"], [axes.Second, "Y", "Site Y", "Local Y", "Y coordinate", "Y coord", "Coord Y"]),
        Frame.ProjectedCrs => (["Easting", "Eastings", "East", "E", "E coordinate", "UTM E", "UTM easting"], ["Northing", "Northings", "North", "N", "N coordinate", "UTM N", "UTM northing"]),
        _ => (["Latitude", "Lat"], ["Longitude", "Lon", "Long", "Lng"]),
    };

    private (Frame Frame, Column First, Column Second) Pair(Frame frame, string moment, bool alsoBare)
    {
        var (first, second) = AxisNames(frame, axes);
        var (ofFirst, ofSecond) = frame switch
        {
            Frame.SiteGrid => (Quantity.SiteCoordinate, Quantity.SiteCoordinate),
            Frame.ProjectedCrs => (Quantity.ProjectedCoordinate, Quantity.ProjectedCoordinate),
            _ => (Quantity.Latitude, Quantity.Longitude),
        };
        return (frame, Axis(first, ofFirst, moment, alsoBare), Axis(second, ofSecond, moment, alsoBare));
    }

    private Column Axis(string[] axisNames, Quantity quantity, string moment, bool alsoBare)
    {
        string[] names = [.. axisNames.SelectMany(name => new[] { $"{name} {moment}", $"{moment} {name}" })];
        return Add(names[0].Trim(), names, quantity, isTime: false, required: false, ofPosition: true, alsoBare ? axisNames : null);
    }

    private Column Add(
        string title, string[] otherNames, Quantity? quantity, bool isTime, bool required, bool ofPosition,
        string[]? looseNames = null, string[]? depthNames = null, bool rare = false, bool isDay = false)
    {
        var column = new Column
        {
            Index = _columns.Count,
            Title = title,
            // "Heading grid" and "Heading true" are two ways of writing one thing.
            Subject = title.StartsWith("Heading", StringComparison.Ordinal) ? "Heading" : title,
            Names = [.. otherNames.Prepend(title).Select(Normalise).Distinct()],
            LooseNames = [.. (looseNames ?? []).Select(Normalise)],
            DepthNames = [.. (depthNames ?? []).Select(Normalise)],
            Quantity = quantity,
            IsTime = isTime,
            IsDay = isDay,
            Required = required,
            Rare = rare,
            OfPosition = ofPosition,
        };
        _columns.Add(column);
        return column;
    }
}
