namespace SiteProgress.Core.Piles;

/// <summary>What an attached file is, judged by its bytes and never by its name.</summary>
public enum AttachmentContent
{
    /// <summary>A photo, JPEG (ISO/IEC 10918).</summary>
    Jpeg = 1,

    /// <summary>A picture, PNG (ISO/IEC 15948).</summary>
    Png = 2,

    /// <summary>A document, PDF (ISO 32000).</summary>
    Pdf = 3,

    /// <summary>The log of a pile as a text table, a sample a row.</summary>
    PileLog = 4,
}
