using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Map;
using SiteProgress.Jobs.Outstanding;
using SiteProgress.Jobs.Planning;
using SiteProgress.Jobs.Treatment;
using SiteProgress.Storage;
using Xunit;

namespace SiteProgress.Jobs.Tests.Treatment;

/// <summary>A test site with a row of piles, some of them off, and the jobs of treatment.</summary>
internal static class TreatedSites
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    /// <summary>Ten piles planned, eight built; numbers in <paramref name="off"/> are 0.2 m beyond their place.</summary>
    public static async Task<TestSite> OpenAsync(JobsDatabase database, params int[] off)
    {
        TestSite site = await TestSite.OpenAsync(database, services =>
        {
            services.AddDbContextFactory<SiteProgressDb>((provider, builder) => StoreOptions.Configure(builder, provider.GetRequiredService<NpgsqlDataSource>()));
            services.AddTransient<RaiseNonConformance>();
            services.AddTransient<ProposeDisposition>();
            services.AddTransient<DecideDisposition>();
            services.AddTransient<AddToNonConformance>();
            services.AddTransient<VerifyClosure>();
            services.AddTransient<ReadNonConformances>();
            services.AddTransient<SubmitLot>();
            services.AddTransient<AcceptPiles>();
            services.AddTransient<ReadLots>();
            services.AddTransient<KeepHoldPoints>();
            services.AddTransient<ReadHoldPoints>();
            services.AddTransient<ReadPileTreatment>();
            services.AddTransient<ReadSignedChanges>();
            services.AddTransient<ReadDecisions>();
            services.AddTransient<CountWaiting>();
            services.AddTransient<ReadOutstanding>();
            services.AddTransient<PlanBarge>();
            services.AddTransient<ReadMapPiles>();
            services.AddSingleton<Storage.Records.UploadStore>();
            services.AddSingleton(new Jobs.RecordsIn.IntakeLimits());
            services.AddTransient<Jobs.Attachments.AttachFile>();
            services.AddTransient<Jobs.Attachments.ReadAttachments>();
            services.AddTransient<Jobs.Attachments.ReadPileLog>();
        });
        await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(10));
        await site.RecordAsync(Role.Surveyor, [.. TestSite.BuiltRow(8).Select(body => body is PileInstalledBody built && off.Contains((int)built.Line - 2) ? built with { Installation = Off(built.Installation) } : body)]);
        return site;
    }

    public static T Job<T>(this TestSite site)
        where T : notnull
        => site.Services.GetRequiredService<T>();

    public static async Task<int> RaiseAsync(this TestSite site, params int[] piles)
        => (await site.Job<RaiseNonConformance>().RunAsync(
            await site.PermitAsync(Role.Surveyor), [.. piles.Select(pile => new FindingName(TestSite.Number(pile), CheckName.Position))], "beyond the limit", null, Cancellation)).Number.ShouldNotBeNull();

    public static async Task<string> SeenAsync(this TestSite site, int number)
        => (await site.Job<ReadNonConformances>().OneAsync(await site.PermitAsync(Role.Surveyor), number, Cancellation)).ShouldNotBeNull().Hash;

    public static async Task<TreatmentAnswer> ProposeAsync(this TestSite site, int number, Disposition disposition, Role role = Role.Surveyor, params AdditionalPile[] additional)
        => await site.Job<ProposeDisposition>().RunAsync(
            await site.PermitAsync(role), number, new(disposition, "as the designer says", "D-1", additional), await site.SeenAsync(number), Cancellation);

    public static async Task<TreatmentAnswer> DecideAsync(this TestSite site, int number, bool approve = true, string comment = "seen")
        => await site.Job<DecideDisposition>().RunAsync(await site.PermitAsync(Role.OwnersRepresentative), number, approve, comment, await site.SeenAsync(number), Cancellation);

    public static async Task<PileState> StateAsync(this TestSite site, int pile)
        => (PileState)await site.OneAsync<short>(
            "select p.state from derived.pile p join record.site s on s.site = p.site where s.code = $1 and p.number = $2", site.Code, TestSite.Number(pile));

    private static Installation Off(Installation built) => built with
    {
        TouchDown = built.TouchDown!.Value with { First = built.TouchDown.Value.First + 0.2 },
        AtEndOfPenetration = built.AtEndOfPenetration!.Value with { First = built.AtEndOfPenetration.Value.First + 0.2 },
    };
}
