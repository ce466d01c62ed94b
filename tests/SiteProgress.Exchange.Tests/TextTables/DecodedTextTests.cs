using System.Text;
using SiteProgress.Exchange.PileSchedules;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.Tests.TextTables;

public sealed class DecodedTextTests
{
    private const string Text = "Pile No;Remark\nA-1;S\u00FCdmole \u20AC \U0001F6A2\n";

    static DecodedTextTests() => Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);

    public static TheoryData<string, string> Encodings => new()
    {
        { "utf-8", "UTF-8" },
        { "utf-8-bom", "UTF-8 with byte order mark" },
        { "utf-16", "UTF-16, little end first" },
        { "utf-16BE", "UTF-16, big end first" },
        { "utf-32", "UTF-32, little end first" },
        { "utf-16-bare", "UTF-16, little end first, without byte order mark" },
        { "utf-16BE-bare", "UTF-16, big end first, without byte order mark" },
    };

    [Theory]
    [MemberData(nameof(Encodings))]
    public void Every_common_encoding_is_recognised(string encoding, string name)
    {
        var bytes = Bytes(encoding, Text);

        foreach (var atOnce in (int[])[1, 3, int.MaxValue])
        {
            var (text, found) = Decode(bytes, atOnce);
            text.ShouldBe(Text);
            found.ShouldBe(name);
        }
    }

    [Fact]
    public void An_old_code_page_is_taken_where_the_bytes_are_not_UTF_8()
    {
        // 0xFC is u with two dots and 0x80 the euro sign in Windows-1252 (the Encoding Standard's index of windows-1252).
        var (text, name) = Decode([.. "A;S"u8, 0xFC, .. "dmole "u8, 0x80], int.MaxValue);

        text.ShouldBe("A;S\u00FCdmole \u20AC");
        name.ShouldBe("Windows-1252 (the bytes are not valid UTF-8)");
    }

    [Fact]
    public void An_old_code_page_is_found_even_behind_a_long_part_that_is_plain_ASCII()
    {
        byte[] bytes = [.. Encoding.ASCII.GetBytes(new string('a', 300_000)), 0xFC, (byte)'b'];

        Decode(bytes, 1_000).Text.ShouldBe(new string('a', 300_000) + "\u00FCb");
    }

    [Fact]
    public void A_stray_byte_in_a_UTF_8_file_spoils_its_row_and_no_other()
    {
        byte[] bytes = [.. Encoding.UTF8.GetBytes(Given.PlannedHeader + ",Remark\nA-1,A,1,2,,,,S\u00FCd\nA-2,A,1,3,,,,"), 0xFC, .. "x\nA-3,A,1,4,,,,ok\n"u8];

        var reading = PlannedPileReader.Read(new MemoryStream(bytes), Given.Choices, TestContext.Current.CancellationToken);

        reading.TheProblem().Sentence.ShouldBe("Line 3, column Remark: found \u201C\uFFFDx\u201D; expected text in one encoding, without control characters.");
        reading.Rows.Select(row => row.Value.Number).ShouldBe(["A-1", "A-3"]);
    }

    [Theory]
    [InlineData("PK\u0003\u0004....", "a whole zip archive; its end is missing, so it seems to be cut off")]
    [InlineData("%PDF-1.7", "a text table (CSV); this is a PDF document")]
    public void Files_of_other_kinds_are_named(string beginning, string what)
        => Given.Planned(beginning).TheProblem().Expected.ShouldBe(what);

    [Fact]
    public void A_cancelled_reading_ends()
    {
        using var stream = new GeneratedStream(Encoding.UTF8.GetBytes(Given.PlannedHeader + "\n"), (byte)'x', 1_000_000_000, []);

        Should.Throw<OperationCanceledException>(() => PlannedPileReader.Read(stream, Given.Choices, new CancellationToken(canceled: true)));
    }

    [Fact]
    public void A_broken_stream_is_not_hidden()
        => Should.Throw<IOException>(() => PlannedPileReader.Read(new BrokenStream(), Given.Choices, TestContext.Current.CancellationToken));

    private static (string Text, string Name) Decode(byte[] bytes, int atOnce)
    {
        using var stream = new GeneratedStream(bytes, [0], 0, [], atOnce);
        var decoded = new DecodedText(stream, null, TestContext.Current.CancellationToken);
        var text = new StringBuilder();
        Span<char> block = stackalloc char[7];
        while (decoded.Read(block) is var read and > 0)
            text.Append(block[..read]);
        return (text.ToString(), decoded.EncodingName);
    }

    private static byte[] Bytes(string encoding, string text) => encoding switch
    {
        "utf-8-bom" => [0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes(text)],
        "utf-16-bare" => Encoding.Unicode.GetBytes(text),
        "utf-16BE-bare" => Encoding.BigEndianUnicode.GetBytes(text),
        "utf-8" => Encoding.UTF8.GetBytes(text),
        _ => [.. Encoding.GetEncoding(encoding).GetPreamble(), .. Encoding.GetEncoding(encoding).GetBytes(text)],
    };

    private sealed class BrokenStream : MemoryStream
    {
        public override int Read(Span<byte> buffer) => throw new IOException("The line went dead.");
    }

    [Theory]
    [InlineData("shift_jis", 932, "\u676D\u756A\u53F7;\u5099\u8003")]
    [InlineData("gb18030", 54936, "\u6869\u53F7;\u5907\u6CE8")]
    [InlineData("euc-kr", 949, "\uB9D0\uB69D;\uBE44\uACE0")]
    [InlineData("windows-1251", 1251, "\u0421\u0432\u0430\u044F;\u041A\u043E\u043C")]
    [InlineData("ibm850", 850, "Pf\u00E4hle;Gr\u00F6\u00DFe")]
    public void An_encoding_the_bytes_do_not_show_is_asked_and_taken_as_chosen(string name, int codePage, string letters)
    {
        var bytes = Encoding.GetEncoding(codePage).GetBytes($"Pile No;Zone;X [m];Y [m];Remark\nA-1;A;1,5;2,5;{letters.Split(';')[0]}\n");

        var guessed = PlannedPileReader.Read(new MemoryStream(bytes), Given.Choices, TestContext.Current.CancellationToken);
        guessed.Questions.ShouldContain(question => question.Kind == QuestionKind.Encoding);

        var chosen = PlannedPileReader.Read(new MemoryStream(bytes), Given.Choices with { Encoding = name }, TestContext.Current.CancellationToken).WithoutProblems();
        chosen.Rows.Single().Value.Remark!.Text.ShouldBe(letters.Split(';')[0]);
        chosen.Assumptions[0].ShouldBe($"Read as {TextEncodings.Words(name)}, as chosen, semicolon as delimiter, decimal comma; header on line 1.");
        chosen.Questions.ShouldNotContain(question => question.Kind == QuestionKind.Encoding);
    }

    [Fact]
    public void Every_encoding_offered_can_be_read()
    {
        foreach (var (name, words) in TextEncodings.All)
        {
            TextEncodings.Find(name).ShouldNotBeNull(name).GetString(TextEncodings.Find(name)!.GetBytes("A-1;2,5")).ShouldBe("A-1;2,5");
            words.ShouldNotBeNullOrWhiteSpace();
        }
    }
}
