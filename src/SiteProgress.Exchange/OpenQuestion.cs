namespace SiteProgress.Exchange;

/// <summary>What a file leaves open.</summary>
public enum QuestionKind
{
    /// <summary>Which of several tables, sheets, layers or groups.</summary>
    Table = 1,

    /// <summary>Encoding of the text.</summary>
    Encoding = 2,

    /// <summary>What a column is.</summary>
    Columns = 3,

    /// <summary>Unit of a column.</summary>
    Units = 4,

    /// <summary>Frame of the positions.</summary>
    Frame = 5,

    /// <summary>What levels or depths are counted from.</summary>
    Levels = 6,

    /// <summary>Time zone of the times.</summary>
    TimeZone = 7,

    /// <summary>The north a heading is counted from.</summary>
    North = 8,

    /// <summary>Decimal comma or point.</summary>
    DecimalMark = 9,

    /// <summary>Order of day and month.</summary>
    DateOrder = 10,

    /// <summary>Whether dates in a column of their own are calendar days or working days.</summary>
    WorkingDay = 11,
}

/// <summary>Something a file does not say. Where an answer was assumed, the assumptions say which.</summary>
/// <param name="Kind">What is open.</param>
/// <param name="Text">The question as sentences for a person.</param>
public sealed record OpenQuestion(QuestionKind Kind, string Text);
