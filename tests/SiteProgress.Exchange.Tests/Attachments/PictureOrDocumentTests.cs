using System.Text;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.Attachments;
using Xunit;

namespace SiteProgress.Exchange.Tests.Attachments;

public sealed class PictureOrDocumentTests
{
    // First bytes by ISO/IEC 15948 clause 5.2 and 11.2.2 (PNG), ITU-T T.81 annex B (JPEG), ISO 32000-1 clause 7.5.2 and 7.5.5 (PDF).
    private static readonly byte[] Png = [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A, 0, 0, 0, 13, .. "IHDR"u8, 0, 0, 0, 16, 0, 0, 0, 16, 8, 2, 0, 0, 0, .. "IEND"u8];
    private static readonly byte[] Jpeg = [0xFF, 0xD8, 0xFF, 0xE0, 0, 4, 1, 2, 0xFF, 0xC0, 0, 11, 8, 0, 100, 0, 200, 1, 1, 0x11, 0, 0xFF, 0xDA, 0xFF, 0xD9];
    private static readonly byte[] Pdf = Encoding.ASCII.GetBytes("%PDF-1.7\n1 0 obj\nendobj\ntrailer\n%%EOF\n");

    [Fact]
    public void A_photo_a_picture_and_a_document_are_known_by_their_bytes()
    {
        Of(Jpeg).ShouldBe(AttachmentContent.Jpeg);
        Of(Png).ShouldBe(AttachmentContent.Png);
        Of(Pdf).ShouldBe(AttachmentContent.Pdf);
    }

    [Theory]
    [InlineData("<html><script>alert(1)</script>")]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>")]
    [InlineData("GIF89a")]
    [InlineData("MZ\u0090\0")]
    [InlineData("PK\u0003\u0004")]
    [InlineData("%PDF")]
    [InlineData("")]
    public void Anything_else_is_none_of_them_whatever_its_name(string content) => Of(Encoding.Latin1.GetBytes(content)).ShouldBeNull();

    [Fact]
    public void A_file_that_only_begins_like_one_is_none()
    {
        Of(Png[..20]).ShouldBeNull();
        Of(Jpeg[..8]).ShouldBeNull();
        Of(Pdf[..20]).ShouldBeNull();
        Of([0xFF, 0xD8, 0xFF, .. Enumerable.Repeat((byte)0xFF, 5000)]).ShouldBeNull();
        Of([0xFF, 0xD8, 0xFF, 0xE0, 0, 0]).ShouldBeNull();
        byte[] huge = [.. Png];
        huge[16] = 0x7F;
        Of(huge).ShouldBeNull();
    }

    [Fact]
    public void Any_cut_and_any_changed_byte_is_answered_without_an_exception()
    {
        foreach (byte[] file in new[] { Png, Jpeg, Pdf })
        {
            for (int length = 0; length < file.Length; length++) Should.NotThrow(() => Of(file[..length]));
            for (int place = 0; place < file.Length; place++)
            {
                byte[] changed = [.. file];
                changed[place] ^= 0xFF;
                Should.NotThrow(() => Of(changed));
            }
        }
    }

    private static AttachmentContent? Of(byte[] bytes)
    {
        using MemoryStream file = new(bytes);
        AttachmentContent? found = PictureOrDocument.Of(file);
        file.Position.ShouldBe(0);
        return found;
    }
}
