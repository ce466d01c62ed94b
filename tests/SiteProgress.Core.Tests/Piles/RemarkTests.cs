using System.Globalization;
using System.Text.Json;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using Xunit;

namespace SiteProgress.Core.Tests.Piles;

public sealed class RemarkTests
{
    private static readonly string[] Texts =
    [
        "", "hose changed", "hårdt lag, Ø1.2 m, 硬い層 🪨", new string('x', 60), new string('y', 61), new string('ø', 40_000), new string('z', 200_000),
    ];

    [Fact]
    public void What_is_kept_comes_back_before_and_after_it_is_packed()
    {
        RemarkShelf shelf = new();
        string[] texts = [.. Texts, .. Enumerable.Range(0, 5_000).Select(Sentence)];
        Remark[] kept = Array.ConvertAll(texts, text => shelf.Keep(text));
        kept.Select(remark => remark.Text).ShouldBe(texts);
        shelf.Close();
        kept.Select(remark => remark.Text).ShouldBe(texts);
        kept.Reverse().Select(remark => remark.Text).ShouldBe(texts.Reverse());
        shelf.Keep(Sentence(7)).Text.ShouldBe(Sentence(7));
    }

    [Fact]
    public void The_same_short_words_are_kept_once()
    {
        RemarkShelf shelf = new();
        Remark first = shelf.Keep("hose changed");
        shelf.Keep("hose changed").ShouldBeSameAs(first);
        shelf.Keep("hose  changed").ShouldNotBe(first);
    }

    [Fact]
    public void A_packed_remark_is_written_into_a_record_as_the_plain_text()
    {
        RemarkShelf shelf = new();
        Remark packed = shelf.Keep(Sentence(3));
        shelf.Close();
        AsPlanned pile = new("A-1", "A", new RecordedPosition(Frame.SiteGrid, 1, 2), null, null, null, null, packed);
        byte[] written = RecordJson.ToBytes(new PilePlannedBody(2, pile));
        written.ShouldBe(RecordJson.ToBytes(new PilePlannedBody(2, pile with { Remark = Sentence(3) })));
        JsonDocument.Parse(written).RootElement.GetProperty("pile").GetProperty("remark").GetString().ShouldBe(Sentence(3));
        ((PilePlannedBody)RecordJson.FromBytes(RecordKind.PilePlanned, written)).Pile.ShouldBe(pile);
        (pile == pile with { Remark = Sentence(3) }).ShouldBeTrue();
        (pile == pile with { Remark = Sentence(4) }).ShouldBeFalse();
    }

    [Fact]
    public void A_remark_that_is_no_text_is_refused()
        => Should.Throw<InvalidDataException>(() => RecordJson.FromBytes(RecordKind.PilePlanned, """{"line":2,"pile":{"number":"A-1","zone":"A","position":{"frame":"siteGrid","first":1,"second":2},"remark":7}}"""u8));

    private static string Sentence(int number) => string.Join(' ', Enumerable.Range(0, 40).Select(word => ((number * 31) + (word * word * 7)).ToString(CultureInfo.InvariantCulture)));
}
