using System.Security.Cryptography;
using System.Text;
using Shouldly;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.HandOver;
using SiteProgress.Jobs.Tests.RecordsIn;
using SiteProgress.Jobs.Treatment;
using Xunit;

namespace SiteProgress.Jobs.Tests.HandOver;

/// <summary>The record offered by the manager and taken over by the owner, each as a record.</summary>
public sealed class KeepHandOverTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    [Fact]
    public async Task An_offer_names_the_package_that_anybody_can_make_again_and_is_taken_over_by_its_hash()
    {
        await using Intake intake = await DesignedAsync();
        Permit manager = await intake.PermitAsync(Role.ProjectManager), owner = await intake.PermitAsync(Role.OwnersRepresentative);
        (await intake.Get<KeepHandOver>().OfferAsync(manager, " Design of zone A ", Intake.Cancellation)).ShouldBe(new TreatmentAnswer(1, null));

        HandOverOfferedBody offer = (await ReadAsync(intake, owner)).HandOvers.ShouldHaveSingleItem().Offer.Body;
        HandOverPackage received = (await intake.Get<WriteHandOver>().RunAsync(owner, offer.UpTo, Intake.Cancellation)).ShouldNotBeNull();
        await using Stream bytes = received.Bytes;
        string held = Convert.ToHexString(await SHA256.HashDataAsync(bytes, Intake.Cancellation));
        held.ShouldBe(offer.PackageSha256, StringCompareShould.IgnoreCase);
        (offer.Note, offer.PackageBytes, offer.HeadHash).ShouldBe(("Design of zone A", received.ByteLength, received.Head));

        (await intake.Get<KeepHandOver>().TakeOverAsync(owner, 1, new string('0', 64), "", Intake.Cancellation)).Refusal.ShouldNotBeNull().ShouldContain("not the SHA-256");
        (await intake.Get<KeepHandOver>().TakeOverAsync(owner, 1, $" {held} ", "", Intake.Cancellation)).Refusal.ShouldBeNull();

        HandOverOffer done = (await ReadAsync(intake, owner)).HandOvers.ShouldHaveSingleItem();
        done.Answer.ShouldNotBeNull().Body.ShouldBe(new HandOverAnsweredBody(1, true, ""));
        (await intake.Get<KeepHandOver>().DeclineAsync(owner, 1, "too late", Intake.Cancellation)).Refusal.ShouldNotBeNull().ShouldContain("was answered in record");
        (await intake.Get<KeepHandOver>().OfferAsync(manager, "again", Intake.Cancellation)).Refusal.ShouldNotBeNull().ShouldContain("nothing new");
    }

    [Fact]
    public async Task What_is_not_taken_over_says_why_and_a_later_offer_is_the_one_that_is_answered()
    {
        await using Intake intake = await DesignedAsync();
        Permit manager = await intake.PermitAsync(Role.ProjectManager), owner = await intake.PermitAsync(Role.OwnersRepresentative);
        KeepHandOver keep = intake.Get<KeepHandOver>();
        await keep.OfferAsync(manager, "first", Intake.Cancellation);

        (await keep.DeclineAsync(owner, 1, " ", Intake.Cancellation)).Refusal.ShouldNotBeNull();
        (await keep.DeclineAsync(owner, 1, "Two sheets are missing", Intake.Cancellation)).Refusal.ShouldBeNull();
        (await keep.OfferAsync(manager, "second", Intake.Cancellation)).Refusal.ShouldNotBeNull();
        await intake.PermitAsync(Role.Surveyor);
        (await keep.OfferAsync(manager, "second", Intake.Cancellation)).Number.ShouldBe(2);
        await intake.PermitAsync(Role.Surveyor);
        (await keep.OfferAsync(manager, "third", Intake.Cancellation)).Number.ShouldBe(3);

        (await keep.DeclineAsync(owner, 2, "why", Intake.Cancellation)).Refusal.ShouldNotBeNull().ShouldContain("followed by another");
        (await keep.DeclineAsync(owner, 4, "why", Intake.Cancellation)).Refusal.ShouldBe("There is no offer 4.");
        (await ReadAsync(intake, owner)).HandOvers.Select(one => one.Answer?.Body.Received).ShouldBe([false, null, null]);
    }

    [Fact]
    public async Task An_offer_without_words_or_by_the_owner_is_none()
    {
        await using Intake intake = await DesignedAsync();
        KeepHandOver keep = intake.Get<KeepHandOver>();
        (await keep.OfferAsync(await intake.PermitAsync(Role.ProjectManager), "", Intake.Cancellation)).Refusal.ShouldNotBeNull();
        await Should.ThrowAsync<AccessRefusedException>(async () => await keep.OfferAsync(await intake.PermitAsync(Role.OwnersRepresentative), "mine", Intake.Cancellation));
        await Should.ThrowAsync<AccessRefusedException>(async () => await keep.TakeOverAsync(await intake.PermitAsync(Role.ProjectManager), 1, "", "", Intake.Cancellation));
    }

    private async Task<Intake> DesignedAsync()
    {
        Intake intake = await Intake.OpenAsync(database);
        string[] design = Encoding.UTF8.GetString(Intake.File("seed-data", "planned-piles-zone-a.csv")).Split('\n');
        await intake.BringInAsync(await intake.PermitAsync(Role.ProjectManager), "design.csv", Encoding.UTF8.GetBytes(string.Join('\n', design.Take(40))));
        return intake;
    }

    private static async Task<ReadHandOver.View> ReadAsync(Intake intake, Permit permit) => await intake.Get<ReadHandOver>().RunAsync(permit, Intake.Cancellation);
}
