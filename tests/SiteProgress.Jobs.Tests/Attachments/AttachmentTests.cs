using System.Text;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Attachments;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Jobs.Tests.Treatment;
using SiteProgress.Jobs.Treatment;
using Xunit;

namespace SiteProgress.Jobs.Tests.Attachments;

public sealed class AttachmentTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private static readonly byte[] Pdf = Encoding.ASCII.GetBytes("%PDF-1.7\n1 0 obj\nendobj\ntrailer\n%%EOF\n");

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private static AttachmentTarget First => new(TestSite.Number(1), null);

    [Fact]
    public async Task A_document_is_attached_to_a_pile_given_back_byte_by_byte_and_withdrawn_by_who_attached_it()
    {
        await using TestSite site = await OpenAsync();
        (await AttachAsync(site, First, "../../etc/report\u202Efdp.exe", Pdf)).Refusal.ShouldBeNull();

        ReadAttachments.Line line = (await ListAsync(site, TestSite.Number(1), null)).ShouldHaveSingleItem();
        line.FileName.ShouldBe("reportfdp.exe");
        line.Content.ShouldBe(AttachmentContent.Pdf);
        (RawFile file, AttachmentContent _) = (await Job<ReadAttachments>(site).OpenAsync(await site.PermitAsync(Role.Administrator), line.Sequence, Cancellation)).ShouldNotBeNull();
        using MemoryStream back = new();
        await using (file.Bytes) await file.Bytes.CopyToAsync(back, Cancellation);
        back.ToArray().ShouldBe(Pdf);

        (await Job<AttachFile>(site).WithdrawAsync(await site.PermitAsync(Role.OwnersRepresentative), line.Sequence, "not mine", Cancellation)).Refusal!.ShouldContain("Only who attached");
        (await Job<AttachFile>(site).WithdrawAsync(await site.PermitAsync(Role.Surveyor), line.Sequence, "wrong pile", Cancellation)).Refusal.ShouldBeNull();
        (await ListAsync(site, TestSite.Number(1), null)).ShouldHaveSingleItem().Withdrawn.ShouldBe("wrong pile");
    }

    [Fact]
    public async Task A_file_that_is_none_of_the_kinds_is_refused_by_its_content_and_nothing_is_recorded()
    {
        await using TestSite site = await OpenAsync();
        foreach (string content in new[] { "<html><script>alert(1)</script>", "MZ\u0090", "%PDF-1.7 without an end" })
            (await AttachAsync(site, First, "photo.pdf", Encoding.Latin1.GetBytes(content))).Refusal!.ShouldContain("Nothing was kept");
        (await AttachAsync(site, First, "empty.pdf", [])).Refusal!.ShouldContain("empty");
        (await AttachAsync(site, First, "long.pdf", [.. Pdf, .. new byte[AttachFile.LargestBytes]])).Refusal!.ShouldContain("longer than 20 MB");
        (await AttachAsync(site, new(null, null), "x.pdf", Pdf)).Refusal.ShouldNotBeNull();
        (await AttachAsync(site, new("no such pile", null), "x.pdf", Pdf)).Refusal.ShouldNotBeNull();
        (await AttachAsync(site, new(null, 99), "x.pdf", Pdf)).Refusal.ShouldNotBeNull();

        (await ListAsync(site, null, null)).ShouldBeEmpty();
    }

    [Fact]
    public async Task A_document_is_evidence_of_a_non_conformance_and_another_site_does_not_see_it()
    {
        await using TestSite site = await OpenAsync(off: 2);
        int number = await site.RaiseAsync(2);
        (await AttachAsync(site, new(null, number), "repair.pdf", Pdf)).Refusal.ShouldBeNull();
        ReadAttachments.Line line = (await ListAsync(site, null, number)).ShouldHaveSingleItem();

        await using TestSite other = await OpenAsync();
        (await Job<ReadAttachments>(other).OpenAsync(await other.PermitAsync(Role.Surveyor), line.Sequence, Cancellation)).ShouldBeNull();
    }

    [Fact]
    public async Task The_log_of_a_pile_is_read_against_its_design_and_a_log_of_another_pile_is_refused()
    {
        await using TestSite site = await OpenAsync();
        (await AttachAsync(site, First, "log.csv", Log(TestSite.Number(2)))).Refusal!.ShouldContain($"of pile {TestSite.Number(2)}");
        (await AttachAsync(site, First, "log.csv", Log(TestSite.Number(1)))).Refusal.ShouldBeNull();

        PileLogView view = (await Job<ReadPileLog>(site).RunAsync(await site.PermitAsync(Role.Surveyor), TestSite.Number(1), Cancellation)).View.ShouldNotBeNull();
        view.Log.Count.ShouldBe(400);
        view.Context.CutOffLevelMetres.ShouldNotBeNull();
        (await Job<ReadPileLog>(site).RunAsync(await site.PermitAsync(Role.Surveyor), TestSite.Number(2), Cancellation)).View.ShouldBeNull();
    }

    [Fact]
    public async Task Where_the_site_does_not_state_what_a_log_needs_the_reading_says_which()
    {
        await using TestSite site = await OpenAsync();
        string fromTop = Encoding.UTF8.GetString(Log(TestSite.Number(1))).Replace("Sand above tip", "Sand below casing top", StringComparison.Ordinal);
        (await AttachAsync(site, First, "log.csv", Encoding.UTF8.GetBytes(fromTop))).Refusal.ShouldBeNull();
        (await AttachAsync(site, new(TestSite.Number(9), null), "log.csv", Log(TestSite.Number(9)))).Refusal.ShouldBeNull();

        PileLogView view = (await ReadLogAsync(site, 1)).View.ShouldNotBeNull();
        view.Context.CasingInnerDiameterMetres.ShouldBeGreaterThan(0);
        view.Context.CasingLengthMetres.ShouldBeNull();
        view.Notes[0].ShouldContain("what the gauge shows in the empty casing");
        view.Notes[1].ShouldContain("The tip is at -25.94 m by the log and at -30.50 m on the record.");
        PileLogAnswer unbuilt = await ReadLogAsync(site, 9);
        unbuilt.View.ShouldBeNull();
        unbuilt.WhyNot!.ShouldContain("no installation stands for this pile");
    }

    [Fact]
    public async Task The_casing_of_a_log_is_that_of_the_calibration_which_held_when_it_was_written()
    {
        await using TestSite site = await OpenAsync();
        string fromTop = Encoding.UTF8.GetString(Log(TestSite.Number(1))).Replace("Sand above tip", "Sand below casing top", StringComparison.Ordinal);
        (await AttachAsync(site, First, "log.csv", Encoding.UTF8.GetBytes(fromTop))).Refusal.ShouldBeNull();
        await site.RecordAsync(
            Role.Surveyor,
            [
                TestSite.Batch(BatchContent.Calibrations, 2, "calibrations"),
                new CalibratedBody(2, new Calibration("Tern", 1, Instant.FromUtc(2026, 3, 1, 0, 0), "measured", InnerAreaSquareMetres: Math.PI / 4, GaugeZeroMetres: 42)),
                new CalibratedBody(3, new Calibration("Tern", 1, Instant.FromUtc(2026, 4, 1, 0, 0), "measured later", InnerAreaSquareMetres: 2, GaugeZeroMetres: 43)),
            ]);

        PileLogView view = (await ReadLogAsync(site, 1)).View.ShouldNotBeNull();
        view.Context.CasingInnerDiameterMetres.ShouldBe(1, 1e-9);
        view.Context.CasingLengthMetres.ShouldBe(42);
        view.Calibration.ShouldNotBeNull();
        view.Notes.ShouldAllBe(note => note.Contains("by the log and at", StringComparison.Ordinal));
    }

    private static async Task<PileLogAnswer> ReadLogAsync(TestSite site, int pile)
        => await Job<ReadPileLog>(site).RunAsync(await site.PermitAsync(Role.Surveyor), TestSite.Number(pile), Cancellation);

    private static byte[] Log(string pile)
    {
        StringBuilder text = new("Pile No,Time,Casing tip level [m],Sand above tip [m]\n");
        for (int second = 0; second < 400; second++)
            text.Append(System.Globalization.CultureInfo.InvariantCulture, $"{pile},2026-03-10T05:{second / 60:00}:{second % 60:00}Z,{-10 - (second * 0.04):0.00},{second * 0.01:0.00}\n");
        return Encoding.UTF8.GetBytes(text.ToString());
    }

    private Task<TestSite> OpenAsync(params int[] off) => TreatedSites.OpenAsync(database, off);

    private static T Job<T>(TestSite site)
        where T : notnull
        => site.Services.GetRequiredService<T>();

    private static async Task<TreatmentAnswer> AttachAsync(TestSite site, AttachmentTarget target, string name, byte[] bytes)
        => await Job<AttachFile>(site).RunAsync(await site.PermitAsync(Role.Surveyor), target, name, "what it shows", new MemoryStream(bytes), Cancellation);

    private static async Task<IReadOnlyList<ReadAttachments.Line>> ListAsync(TestSite site, string? pile, int? nonConformance)
        => (await Job<ReadAttachments>(site).RunAsync(await site.PermitAsync(Role.Surveyor), pile, nonConformance, Cancellation)).Files;
}
