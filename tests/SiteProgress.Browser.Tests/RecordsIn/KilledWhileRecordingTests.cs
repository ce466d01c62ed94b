using Shouldly;
using Xunit;

namespace SiteProgress.Browser.Tests.RecordsIn;

/// <summary>
/// Application and server are killed, as by a power cut, in the middle of recording a batch. A lock held from outside stops
/// the recording at a known point and shows that it has got there; no clock decides. Afterwards the batch is wholly there or
/// wholly not, and chain and derived state hold.
/// </summary>
public sealed class KilledWhileRecordingTests(KillableSite site) : IClassFixture<KillableSite>
{
    private const int Piles = 40;

    /// <summary>
    /// Before the batch's first record is written; after its records and before its piles; after everything but the head of
    /// the chain. The lock lets readers through and stops the writer.
    /// </summary>
    public static TheoryData<string, string, string> Points => new()
    {
        { "P1", "record.site_record", "exclusive" },
        { "P2", "derived.pile", "exclusive" },
        { "P3", "derived.site_state", "share" },
    };

    [Theory]
    [MemberData(nameof(Points))]
    public async Task A_killed_application_leaves_nothing_of_the_batch_and_can_record_it_afterwards(string point, string table, string mode)
    {
        var preview = await site.SendAsync("W" + point, Piles);
        var before = await site.RecordsAsync();
        await using (var held = await site.HoldAsync(table, mode))
        {
            var recording = site.RecordAsync(preview, await site.TokenAsync(preview));
            await site.UntilSomebodyWaitsForAsync(table);
            await site.KillWebAsync();
            (await recording).ShouldBeNull();
        }

        (await site.RecordsAsync()).ShouldBe(before);
        (await site.VerifyAsync()).ShouldContain("chain: holds");
        await site.StartWebAgainAsync();
        await RecordedAfterwardsAsync(preview, before);
    }

    [Theory]
    [MemberData(nameof(Points))]
    public async Task A_killed_server_leaves_nothing_of_the_batch_and_can_record_it_afterwards(string point, string table, string mode)
    {
        var preview = await site.SendAsync("S" + point, Piles);
        var before = await site.RecordsAsync();
        await using (var held = await site.HoldAsync(table, mode))
        {
            var recording = site.RecordAsync(preview, await site.TokenAsync(preview));
            await site.UntilSomebodyWaitsForAsync(table);
            await site.KillServerAsync();
            (await recording).ShouldBeNull();
        }

        await site.StartServerAndWebAgainAsync();
        (await site.RecordsAsync()).ShouldBe(before);
        (await site.VerifyAsync()).ShouldContain("chain: holds");
        await RecordedAfterwardsAsync(preview, before);
    }

    [Fact]
    public async Task What_was_answered_as_recorded_is_there_after_both_are_killed()
    {
        var preview = await site.SendAsync("K", Piles);
        var before = await site.RecordsAsync();
        (await site.RecordAsync(preview, await site.TokenAsync(preview))).ShouldNotBeNull().ShouldEndWith("recorded=yes");

        await site.KillServerAsync();
        await site.KillWebAsync();
        await site.StartServerAndWebAgainAsync();

        (await site.RecordsAsync()).ShouldBe(before + 1 + Piles);
        (await site.VerifyAsync()).ShouldContain("chain: holds");
    }

    private async Task RecordedAfterwardsAsync(string preview, long before)
    {
        (await site.RecordAsync(preview, await site.TokenAsync(preview))).ShouldNotBeNull().ShouldEndWith("recorded=yes");
        (await site.RecordsAsync()).ShouldBe(before + 1 + Piles);
        (await site.VerifyAsync()).ShouldContain("heads kept outside the store: agree");
    }
}
