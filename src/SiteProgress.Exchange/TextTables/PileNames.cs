namespace SiteProgress.Exchange.TextTables;

/// <summary>
/// How schedules and pile reports usually title the same column (common practice, no source). A title that may mean two
/// different things, such as "cut-off level" beside an as-built top, is not among them: a person says what it is.
/// </summary>
internal static class PileNames
{
    /// <summary>The pile number.</summary>
    public static readonly string[] Usual =
        ["Pile Number", "Pile Nr", "Pile Id", "Pile", "Pile Ref", "Pile Reference", "Pile Name", "Pile Mark", "SCP No", "SCP Id", "SCP"];

    /// <summary>The pile number, where no other column is: points of drawings and survey files.</summary>
    public static readonly string[] Loose = ["Name", "Point", "Point No", "Point Id", "Point Name", "No", "Nr", "Number", "Label", "Id", "Text"];

    /// <summary>Level of the top.</summary>
    public static readonly string[] TopLevels = ["Level top", "Pile top level", "Top of pile level", "Top elevation", "Top el", "Head level", "Pile head level"];

    /// <summary>Depth of the top.</summary>
    public static readonly string[] TopDepths = ["Top depth", "Depth top", "Depth of top", "Pile top depth"];

    /// <summary>Level of the tip.</summary>
    public static readonly string[] TipLevels =
        ["Level tip", "Pile tip level", "Toe level", "Pile toe level", "Level toe", "Bottom level", "Base level", "Tip elevation", "Toe elevation", "Tip el", "Toe el"];

    /// <summary>Depth of the tip.</summary>
    public static readonly string[] TipDepths =
        ["Tip depth", "Depth tip", "Depth of tip", "Toe depth", "Depth toe", "Pile toe depth", "Bottom depth", "Base depth", "Penetration depth", "Depth"];

    /// <summary>The remark.</summary>
    public static readonly string[] Remarks = ["Remarks", "Comment", "Comments", "Note", "Notes"];
}
