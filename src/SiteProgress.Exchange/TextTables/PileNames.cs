namespace SiteProgress.Exchange.TextTables;

/// <summary>
/// How schedules and pile reports usually title the same column (common practice, no source). A title that may mean two
/// different things, such as "cut-off level" beside an as-built top, is not among them: a person says what it is.
/// </summary>
internal static class PileNames
{
    /// <summary>The pile number.</summary>
    public static readonly string[] Usual =
    [
        "Pile Number", "Pile Nr", "Pile Id", "Pile", "Pile Ref", "Pile Reference", "Pile Name", "Pile Mark", "Pile Code", "Pile Label", "Pile Num", "No of pile",
        "Number of pile", "P No", "Pile Ident", "SCP No", "SCP Nr", "SCP Number", "SCP Id", "SCP", "Sand pile No", "Sand pile number",
    ];

    /// <summary>The pile number, where no other column is: points of drawings and survey files.</summary>
    public static readonly string[] Loose = ["Name", "Point", "Point No", "Point Id", "Point Name", "No", "Nr", "Number", "Label", "Id", "Text", "Column No", "Column number"];

    /// <summary>Level of the top.</summary>
    public static readonly string[] TopLevels =
    [
        "Level top", "Level of top", "Pile top level", "Top of pile level", "Top elevation", "Top elev", "Top el", "Top RL", "Head RL", "RL top", "Top lvl", "Top lev", "Elevation top",
        "Head level", "Pile head level", "Head elevation", "Level head",
    ];

    /// <summary>Depth of the top.</summary>
    public static readonly string[] TopDepths = ["Top depth", "Depth top", "Depth of top", "Pile top depth", "Head depth", "Depth to top"];

    /// <summary>Level of the tip.</summary>
    public static readonly string[] TipLevels =
    [
        "Level tip", "Level of tip", "Pile tip level", "Toe level", "Pile toe level", "Level toe", "Level of toe", "Bottom level", "Base level", "Level bottom", "Pile bottom level",
        "Pile base level", "Tip elevation", "Toe elevation", "Bottom elevation", "Base elevation", "Tip elev", "Toe elev", "Tip el", "Toe el", "Tip RL", "Toe RL", "Base RL", "Bottom RL", "RL tip", "RL toe",
        "Tip lvl", "Toe lvl", "Tip lev", "Elevation tip", "Elevation toe", "Casing tip level", "Founding level",
    ];

    /// <summary>Depth of the tip.</summary>
    public static readonly string[] TipDepths =
    [
        "Tip depth", "Depth tip", "Depth of tip", "Toe depth", "Depth toe", "Depth of toe", "Pile toe depth", "Pile tip depth", "Bottom depth", "Base depth", "Penetration depth",
        "Depth of penetration", "Depth", "Depth reached", "Pile depth", "Depth to toe", "Depth to tip", "Casing tip depth", "Max depth", "Maximum depth",
    ];

    /// <summary>The top without a word whether it is a level.</summary>
    public static readonly string[] BareTops = ["Top", "Pile top", "Top of pile", "Pile head"];

    /// <summary>The tip without a word whether it is a level.</summary>
    public static readonly string[] BareTips = ["Tip", "Toe", "Base", "Bottom", "Pile tip", "Pile toe", "Pile base", "Pile bottom", "Casing tip"];

    /// <summary>The remark.</summary>
    public static readonly string[] Remarks = ["Remarks", "Comment", "Comments", "Note", "Notes", "Observation", "Observations"];

    /// <summary>Titles of a depth of the tip below a surface.</summary>
    /// <param name="surface">The surface as titles name it.</param>
    public static string[] TipsBelow(params string[] surface) => Joined([.. BareTips, .. TipDepths], surface);

    /// <summary>Titles of a depth of the top below a surface.</summary>
    /// <param name="surface">The surface as titles name it.</param>
    public static string[] TopsBelow(params string[] surface) => Joined([.. BareTops, .. TopDepths], surface);

    private static string[] Joined(string[] what, string[] surface) => [.. what.SelectMany(one => surface.Select(below => $"{one} {below}"))];
}
