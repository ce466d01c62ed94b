using System.Security.Cryptography;
using System.Text;
using NodaTime;
using Shouldly;
using SiteProgress.Core.Records;
using Xunit;

namespace SiteProgress.Core.Tests.Records;

public sealed class HashChainTests
{
    private static readonly Instant At = Instant.FromUtc(2026, 3, 10, 8, 15, 30) + Duration.FromTicks(1_234_560);

    [Fact]
    public void The_canonical_form_is_the_documented_text()
    {
        byte[] bytes = HashChain.CanonicalBytes(
            "test-site", 7, RecordKind.PileInstalled, At, "operator", 5, ChainHash.BeforeFirst, "{}"u8);

        Encoding.ASCII.GetString(bytes).ShouldBe(
            "siteprogress record 1\nsite test-site\nsequence 7\nkind PileInstalled\nrecorded 2026-03-10T08:15:30.123456Z\n"
            + "by operator\nbatch 5\nprevious " + new string('0', 64) + "\n\n{}");
    }

    [Fact]
    public void The_hash_is_the_SHA_256_of_the_canonical_form()
    {
        // FIPS 180-4, example of the one-block message "abc": shows that the hash used is SHA-256 itself.
        Convert.ToHexStringLower(SHA256.HashData("abc"u8))
            .ShouldBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");

        ChainHash hash = HashChain.Next("test-site", 1, RecordKind.BatchRecorded, At, "operator", null, ChainHash.BeforeFirst, "{}"u8);

        // Computed once outside the project with Python's hashlib over the documented text with these values.
        hash.ToString().ShouldBe("e1c3740e1cdee61da7cd5b1aec3f1e9fb4536bf12db09b7668402a9d17c416e4");
    }

    [Fact]
    public void A_sound_chain_has_no_break() => HashChain.FirstBreak("s", Chain(20)).ShouldBeNull();

    [Theory]
    [InlineData(1)]
    [InlineData(9)]
    [InlineData(20)]
    public void An_altered_body_breaks_the_chain_at_its_record(int sequence)
    {
        RecordEntry[] records = Chain(20);
        records[sequence - 1] = records[sequence - 1] with { Body = "{\"altered\":1}"u8.ToArray() };

        HashChain.FirstBreak("s", records)!.Sequence.ShouldBe(sequence);
    }

    [Fact]
    public void An_altered_time_author_kind_or_batch_breaks_the_chain()
    {
        RecordEntry record = Chain(1)[0];
        foreach (RecordEntry altered in new[]
        {
            record with { RecordedAt = record.RecordedAt + Duration.FromMilliseconds(1) },
            record with { RecordedBy = "someone else" },
            record with { Kind = RecordKind.PilePlanned },
            record with { Batch = 3 },
        })
        {
            HashChain.FirstBreak("s", [altered]).ShouldNotBeNull();
        }
    }

    [Fact]
    public void A_record_taken_out_is_named()
    {
        List<RecordEntry> records = [.. Chain(10)];
        records.RemoveAt(4);

        HashChain.FirstBreak("s", records)!.ShouldSatisfyAllConditions(
            found => found.Sequence.ShouldBe(5), found => found.Reason.ShouldContain("missing"));
    }

    [Fact]
    public void The_chain_of_one_site_is_not_the_chain_of_another()
        => HashChain.FirstBreak("other", Chain(3))!.Sequence.ShouldBe(1);

    private static RecordEntry[] Chain(int length)
    {
        RecordEntry[] records = new RecordEntry[length];
        ChainHash previous = ChainHash.BeforeFirst;
        for (int index = 0; index < length; index++)
        {
            byte[] body = Encoding.ASCII.GetBytes($"{{\"n\":{index}}}");
            previous = HashChain.Next("s", index + 1, RecordKind.PileInstalled, At, "operator", 1, previous, body);
            records[index] = new RecordEntry(index + 1, RecordKind.PileInstalled, At, "operator", 1, body, previous);
        }

        return records;
    }
}
