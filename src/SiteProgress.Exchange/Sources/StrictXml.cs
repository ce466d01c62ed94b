using System.Text;
using System.Xml;

namespace SiteProgress.Exchange.Sources;

/// <summary>
/// Reads XML of strangers: no document type, nothing from outside, bounded depth, and no tag or text so long that the
/// reader would have to hold it whole.
/// </summary>
internal static class StrictXml
{
    /// <summary>Longest text of one element, characters; a cell of a spreadsheet holds 32,767.</summary>
    public const int LongestText = 32_767;

    private const int MostDepth = 100;

    private static readonly XmlReaderSettings Settings = new()
    {
        DtdProcessing = DtdProcessing.Prohibit,
        XmlResolver = null,
        IgnoreComments = true,
        IgnoreProcessingInstructions = true,
        CloseInput = true,
    };

    /// <summary>A reader over a stream; closing it closes the stream.</summary>
    /// <param name="stream">The bytes.</param>
    public static XmlReader Open(Stream stream) => XmlReader.Create(new TagGuard(stream), Settings);

    /// <summary>Goes to the next node and refuses one that lies too deep.</summary>
    /// <param name="reader">The reader.</param>
    public static bool Next(XmlReader reader)
    {
        if (reader.Depth > MostDepth)
            throw new BrokenFileException("XML of at most 100 elements within each other");
        return reader.Read();
    }

    /// <summary>The text of an element and of all within it; the reader then stands on its end.</summary>
    /// <param name="reader">A reader that stands on the element.</param>
    /// <param name="into">Where to; it is not cleared.</param>
    /// <param name="leaveOut">Name of elements whose text does not count.</param>
    public static void AppendText(XmlReader reader, StringBuilder into, string? leaveOut = null)
    {
        if (reader.IsEmptyElement)
            return;
        var depth = reader.Depth;
        var piece = new char[1024];
        while (Next(reader) && reader.Depth > depth)
        {
            if (leaveOut is not null && reader.NodeType is XmlNodeType.Element && reader.LocalName == leaveOut)
            {
                Skip(reader);
                continue;
            }

            if (reader.NodeType is not (XmlNodeType.Text or XmlNodeType.CDATA or XmlNodeType.SignificantWhitespace or XmlNodeType.Whitespace))
                continue;
            for (int count; (count = reader.ReadValueChunk(piece, 0, piece.Length)) > 0;)
            {
                into.Append(piece, 0, count);
                if (into.Length > LongestText)
                    throw new BrokenFileException("at most 32,767 characters in a cell");
            }
        }
    }

    /// <summary>Passes over an element; the reader then stands on its end.</summary>
    /// <param name="reader">A reader that stands on the element.</param>
    public static void Skip(XmlReader reader)
    {
        if (reader.IsEmptyElement)
            return;
        var depth = reader.Depth;
        while (Next(reader) && reader.Depth > depth)
        {
            // Everything within is passed over.
        }
    }

    /// <summary>Refuses a tag longer than 64 kB: its attributes would be held whole, however long.</summary>
    private sealed class TagGuard(Stream inner) : ForwardStream
    {
        private const int LongestTag = 64 * 1024;

        private byte _quote;
        private byte _before;
        private int _length = -1;

        public override int Read(Span<byte> buffer)
        {
            var count = inner.Read(buffer);
            foreach (var value in buffer[..count])
                Look(value);
            return count;
        }

        private void Look(byte value)
        {
            // UTF-16 has a zero beside each letter of a tag.
            if (value == 0)
                return;
            if (_length < 0)
                _length = value == '<' ? 0 : -1;
            else if (_length == 0 && value is (byte)'!' or (byte)'?' && _before == '<')
                _length = -1;
            else if (_quote == 0 && value == '>')
                _length = -1;
            else if (value is (byte)'"' or (byte)'\'' && (_quote == 0 || _quote == value))
                _quote = _quote == 0 ? value : (byte)0;
            else if (++_length > LongestTag)
                throw new BrokenFileException("XML with tags of at most 64 kB");
            if (_length < 0)
                _quote = 0;
            _before = value;
        }

        protected override void Dispose(bool disposing)
        {
            if (disposing)
                inner.Dispose();
            base.Dispose(disposing);
        }
    }
}
