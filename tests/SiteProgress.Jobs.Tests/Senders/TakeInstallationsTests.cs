using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Jobs.Senders;
using SiteProgress.Jobs.Verification;
using Xunit;

namespace SiteProgress.Jobs.Tests.Senders;

/// <summary>What a machine sends, however often, in whatever order, and however badly.</summary>
public sealed class TakeInstallationsTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_record_sent_is_recorded_at_once_and_sent_again_it_is_known()
    {
        await using SentSite site = await SentSite.OpenAsync(database);

        SentAnswer first = await site.SendAsync(SentSite.List(SentSite.Json("T-1")));
        SentAnswer again = await site.SendAsync(SentSite.List(SentSite.Json("T-1")));

        first.Recorded.ShouldBe(1);
        first.Rows.ShouldHaveSingleItem().ShouldBe(new SentRowAnswer(1, "T-1", SentRowBecame.Recorded));
        again.ShouldSatisfyAllConditions(
            answer => answer.Recorded.ShouldBe(0), answer => answer.AlreadyRecorded.ShouldBe(1),
            answer => answer.Rows.ShouldHaveSingleItem().Became.ShouldBe(SentRowBecame.AlreadyRecorded));
        (await site.CountAsync(nameof(RecordKind.PileInstalled))).ShouldBe(1);
        (await site.CountAsync(nameof(RecordKind.BatchRecorded))).ShouldBe(1);
        (await site.OneAsync<long>("select count(*) from record.upload u join record.site s on s.site = u.site where s.code = $1", site.Code)).ShouldBe(1);
        (await site.OneAsync<string>("select b.sender from derived.batch b join record.site s on s.site = b.site where s.code = $1", site.Code)).ShouldBe("Tern logger");
    }

    [Fact]
    public async Task A_sender_cannot_fill_the_store_beyond_the_quota_of_its_site()
    {
        await using SentSite site = await SentSite.OpenAsync(database);
        TakeInstallations narrow = ActivatorUtilities.CreateInstance<TakeInstallations>(site.Get<IServiceProvider>(), new IntakeLimits { SiteQuotaBytes = 100 });

        SentAnswer answer = await narrow.RunAsync(
            (await site.EnterAsync()).ShouldNotBeNull(), SentForm.Json, "sent.json", System.Text.Encoding.UTF8.GetBytes(SentSite.Json("T-1")), Cancellation);

        answer.Later.ShouldNotBeNull().ShouldContain("quota");
        (await site.CountAsync(nameof(RecordKind.BatchRecorded))).ShouldBe(0);
        (await site.OneAsync<long>("select count(*) from record.upload u join record.site s on s.site = u.site where s.code = $1", site.Code)).ShouldBe(0);
    }

    [Fact]
    public async Task The_same_record_as_JSON_and_as_a_text_table_is_one_record()
    {
        await using SentSite site = await SentSite.OpenAsync(database);
        const string Table = """
            Record,Pile No,Barge,Casing,Start,End penetration,End,X end [m],Y end [m],Heading grid [deg],Top level [m],Tip level [m],Sand in casing [m3],Inclination [deg],Fix,Uncertainty [m],Outcome
            T-1,A-0001,Tern,1,2026-03-10T08:00:00+01:00,2026-03-10T09:10:00+01:00,2026-03-10T09:40:00+01:00,1000.02,2000.01,33,-12.45,-28.10,63.7,0.4,RTK fixed,0.04,complete
            """;

        (await site.SendAsync(Table, SentForm.Text)).Recorded.ShouldBe(1);
        (await site.SendAsync(SentSite.Json("T-1"))).AlreadyRecorded.ShouldBe(1);
        (await site.CountAsync(nameof(RecordKind.PileInstalled))).ShouldBe(1);
    }

    [Fact]
    public async Task What_a_person_said_of_a_header_holds_for_the_machine_that_sends_the_same_one()
    {
        await using SentSite site = await SentSite.OpenAsync(database);
        const string Odd = "Ref,Mark,East of grid,North of grid,Toe depth [m]\n";
        SentAnswer before = await site.SendAsync(Odd + "T-2,A-0002,1002.12,2000.01,28.6\n", SentForm.Text);
        before.Recorded.ShouldBe(0);

        Permit surveyor = await site.PermitAsync(Role.Surveyor);
        UploadChoices said = ChoicePairs.Read(
            [("content", "installations"), ("header", "1"), ("c0", "record"), ("c1", "pileno"), ("c2", "xend"), ("c3", "yend"), ("c4", "tiplevel"), ("depths", "0.3"), ("v.barge", "Tern"), ("v.outcome", "complete")]);
        using MemoryStream bytes = new(System.Text.Encoding.UTF8.GetBytes(Odd + "T-1,A-0001,1000.02,2000.01,28.4\n"));
        UploadResult upload = await site.Get<StoreUpload>().RunAsync(surveyor, "first.csv", bytes, Cancellation);
        (await site.Get<RecordUpload>().RunAsync(surveyor, upload.Upload!.Value, said, leaveOutProblems: false, Cancellation)).Refusal.ShouldBeNull();

        SentAnswer after = await site.SendAsync(Odd + "T-2,A-0002,1002.12,2000.01,28.6\n", SentForm.Text);

        after.Recorded.ShouldBe(1);
        (await site.OneAsync<double>("select i.tip from derived.installation i join record.site s on s.site = i.site where s.code = $1 and i.record_id = 'T-2'", site.Code)).ShouldBe(-28.3);
        (await site.OneAsync<string[]>("select b.assumptions from derived.batch b join record.site s on s.site = b.site where s.code = $1 and b.sender is not null order by b.batch desc limit 1", site.Code))
            .ShouldContain(sentence => sentence.EndsWith("(first.csv), whose header was the same.", StringComparison.Ordinal));
    }

    [Fact]
    public async Task The_same_identifier_with_other_content_is_a_problem_and_changes_nothing()
    {
        await using SentSite site = await SentSite.OpenAsync(database);
        await site.SendAsync(SentSite.Json("T-1"));

        SentAnswer other = await site.SendAsync(SentSite.Json("T-1", tip: -29.99));

        other.NotTaken.ShouldBe(1);
        other.Problems.ShouldHaveSingleItem().ShouldSatisfyAllConditions(
            problem => problem.Row.ShouldBe(1), problem => problem.Column.ShouldBe("Record"), problem => problem.RecordId.ShouldBe("T-1"),
            problem => problem.Expected.ShouldContain("other content"));
        (await site.CountAsync(nameof(RecordKind.PileInstalled))).ShouldBe(1);
    }

    [Fact]
    public async Task Good_rows_do_not_wait_for_bad_ones_and_the_bad_ones_are_kept_by_row_and_column()
    {
        await using SentSite site = await SentSite.OpenAsync(database);
        string bad = SentSite.Json("T-2", "A-0002").Replace("\"tipLevel\":-28.1", "\"tipLevel\":-28100", StringComparison.Ordinal);

        SentAnswer answer = await site.SendAsync(SentSite.List(SentSite.Json("T-1"), bad, "7", SentSite.Json("T-4", "A-0004", minute: 1), SentSite.Json("T-5", "A-0005", "Nobody")));

        answer.ShouldSatisfyAllConditions(one => one.RowsRead.ShouldBe(5), one => one.Recorded.ShouldBe(2), one => one.NotTaken.ShouldBe(3));
        answer.Rows.Select(row => (row.Row, row.Became)).ShouldBe(
        [
            (1, SentRowBecame.Recorded), (2, SentRowBecame.NotTaken), (3, SentRowBecame.NotTaken), (4, SentRowBecame.Recorded), (5, SentRowBecame.NotTaken),
        ]);
        answer.Problems.Single(problem => problem.Row == 2).ShouldSatisfyAllConditions(
            problem => problem.Column.ShouldBe("Tip level"), problem => problem.Found.ShouldBe("-28100"), problem => problem.Expected.ShouldContain("looks like millimetres"));
        answer.Problems.Single(problem => problem.Row == 5).Expected.ShouldBe("a barge of this site: Tern");
        (await site.CountAsync(nameof(RecordKind.PileInstalled))).ShouldBe(2);

        SendersView view = await site.Get<ReadSenders>().RunAsync(await site.PermitAsync(Role.Surveyor), Cancellation);
        view.NotTaken.Select(row => (row.Sender, row.Problem.Row, row.Problem.Column)).ShouldBe([("Tern logger", 2, "Tip level"), ("Tern logger", 3, null), ("Tern logger", 5, "Barge")], ignoreOrder: true);
        view.Keys.ShouldHaveSingleItem().ShouldSatisfyAllConditions(key => key.Recorded.ShouldBe(2), key => key.NotTaken.ShouldBe(3));
    }

    [Fact]
    public async Task The_same_bad_request_again_is_not_kept_again()
    {
        await using SentSite site = await SentSite.OpenAsync(database);
        string request = SentSite.List(SentSite.Json("T-1"), "null");

        await site.SendAsync(request);
        SentAnswer again = await site.SendAsync(request);

        again.ShouldSatisfyAllConditions(one => one.AlreadyRecorded.ShouldBe(1), one => one.NotTaken.ShouldBe(1));
        (await site.CountAsync(nameof(RecordKind.BatchRecorded))).ShouldBe(1);
    }

    [Fact]
    public async Task Sent_twice_in_parallel_each_record_is_recorded_once()
    {
        await using SentSite site = await SentSite.OpenAsync(database);
        string request = SentSite.List([.. Enumerable.Range(0, 20).Select(index => SentSite.Json($"T-{index}", $"A-{index + 1:0000}", minute: index))]);

        SentAnswer[] answers = await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => Task.Run(() => site.SendAsync(request), Cancellation)));

        answers.Sum(answer => answer.Recorded).ShouldBe(20);
        answers.ShouldAllBe(answer => answer.Recorded + answer.AlreadyRecorded == 20);
        (await site.CountAsync(nameof(RecordKind.PileInstalled))).ShouldBe(20);
        (await site.Get<VerifySite>().RunAsync(site.Code, Cancellation))!.Sound.ShouldBeTrue();
    }

    [Fact]
    public async Task Out_of_order_and_in_pieces_gives_the_same_installations()
    {
        await using SentSite site = await SentSite.OpenAsync(database);
        foreach (int index in new[] { 3, 1, 2, 1, 0, 3 }) await site.SendAsync(SentSite.Json($"T-{index}", $"A-{index + 1:0000}", minute: index));

        (await site.CountAsync(nameof(RecordKind.PileInstalled))).ShouldBe(4);
        (await site.OneAsync<long>("select count(distinct record_id) from derived.installation i join record.site s on s.site = i.site where s.code = $1", site.Code)).ShouldBe(4);
    }

    [Fact]
    public async Task A_record_without_the_senders_identifier_is_a_problem()
    {
        await using SentSite site = await SentSite.OpenAsync(database);

        SentAnswer answer = await site.SendAsync(SentSite.Json("T-1").Replace("\"record\":\"T-1\",", "", StringComparison.Ordinal));

        answer.Problems.ShouldHaveSingleItem().ShouldSatisfyAllConditions(problem => problem.Column.ShouldBe("Record"), problem => problem.Row.ShouldBe(1));
        (await site.CountAsync(nameof(RecordKind.PileInstalled))).ShouldBe(0);
    }

    [Fact]
    public async Task What_a_person_withdrew_does_not_come_back_unless_it_says_something_else()
    {
        await using SentSite site = await SentSite.OpenAsync(database);
        await site.SendAsync(SentSite.Json("T-1"));
        long batch = await site.OneAsync<long>("select max(batch) from derived.batch b join record.site s on s.site = b.site where s.code = $1", site.Code);
        (await site.Get<WithdrawBatch>().RunAsync(await site.PermitAsync(Role.Surveyor), batch, "wrong pile", Cancellation)).ShouldBeNull();

        (await site.SendAsync(SentSite.Json("T-1"))).Rows.ShouldHaveSingleItem().Became.ShouldBe(SentRowBecame.AlreadyWithdrawn);
        (await site.SendAsync(SentSite.Json("T-1", "A-0003"))).Recorded.ShouldBe(1);
    }

    [Fact]
    public async Task A_record_that_a_file_brought_before_is_known()
    {
        await using SentSite site = await SentSite.OpenAsync(database);
        Permit surveyor = await site.PermitAsync(Role.Surveyor);
        const string Table = "Record,Pile No,Barge,Outcome,X end,Y end\nT-9,A-0001,Tern,complete,1000.0,2000.0\n";
        UploadResult stored = await site.Get<StoreUpload>().RunAsync(surveyor, "by-hand.csv", new MemoryStream(System.Text.Encoding.UTF8.GetBytes(Table)), Cancellation);
        (await site.Get<RecordUpload>().RunAsync(surveyor, stored.Upload!.Value, UploadChoices.AsTheFileSays, false, Cancellation)).Refusal.ShouldBeNull();

        (await site.SendAsync("""{"record":"T-9","pileNo":"A-0001","barge":"Tern","outcome":"complete","xEnd":1000,"yEnd":2000}""")).AlreadyRecorded.ShouldBe(1);
    }

    [Theory]
    [InlineData("")]
    [InlineData("{")]
    [InlineData("[1,2")]
    [InlineData("\"text\"")]
    [InlineData("[[[[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]]]")]
    [InlineData("[]")]
    [InlineData("[{\"record\":\"\\ud800\"}]")]
    [InlineData("\u0000\u0001\u0002")]
    public async Task What_cannot_be_read_at_all_is_refused_whole_with_a_sentence(string request)
    {
        await using SentSite site = await SentSite.OpenAsync(database);

        SentAnswer answer = await site.SendAsync(request);

        answer.WholeRefused.ShouldBeTrue();
        answer.Recorded.ShouldBe(0);
        (await site.CountAsync(nameof(RecordKind.PileInstalled))).ShouldBe(0);
    }

    [Fact]
    public async Task A_name_that_stands_twice_a_nested_value_and_an_empty_object_are_told_by_row()
    {
        await using SentSite site = await SentSite.OpenAsync(database);

        SentAnswer answer = await site.SendAsync("""[{"record":"a","record":"b"},{"record":{"x":1}},{},{"record":""},{"record":"T\n1","pileNo":"A-0001","barge":"Tern","outcome":"complete"}]""");

        answer.Problems.Where(problem => problem.Row is 1 or 2 or 3 or 4).Select(problem => problem.Expected).ShouldBe(
            ["each member once", "a text, a number or null", "an object with the members of an installation", "an object with the members of an installation"]);
        answer.Rows.Single(row => row.Row == 5).Became.ShouldBe(SentRowBecame.Recorded);
    }

    [Fact]
    public async Task A_key_withdrawn_opens_nothing_and_one_withdrawn_while_it_sends_records_nothing()
    {
        await using SentSite site = await SentSite.OpenAsync(database);
        SenderPermit entered = (await site.EnterAsync()).ShouldNotBeNull();
        Permit administrator = await site.PermitAsync(Role.Administrator);
        (await site.Get<SenderKeys>().WithdrawAsync(administrator, entered.Key, "logger stolen", Cancellation)).ShouldBeNull();

        (await site.EnterAsync()).ShouldBeNull();
        await Should.ThrowAsync<AccessWithdrawnException>(() => site.Get<TakeInstallations>().RunAsync(
            entered, SentForm.Json, "sent.json", System.Text.Encoding.UTF8.GetBytes(SentSite.Json("T-1")), Cancellation));
        (await site.CountAsync(nameof(RecordKind.PileInstalled))).ShouldBe(0);
        (await site.Get<SenderKeys>().WithdrawAsync(administrator, entered.Key, "again", Cancellation)).ShouldBe("The key was withdrawn already.");
    }

    [Fact]
    public async Task A_key_opens_its_own_site_alone_and_its_hash_alone_is_kept()
    {
        await using SentSite site = await SentSite.OpenAsync(database);
        await using SentSite other = await SentSite.OpenAsync(database);

        (await other.EnterAsync(site.Key)).ShouldBeNull();
        (await site.EnterAsync("sps_" + new string('A', 43))).ShouldBeNull();
        (await site.EnterAsync(site.Key[4..])).ShouldBeNull();
        string bodies = await site.OneAsync<string>("select string_agg(convert_from(body, 'UTF8'), '') from record.site_record r join record.site s on s.site = r.site where s.code = $1", site.Code);
        bodies.ShouldContain("Tern logger");
        bodies.ShouldNotContain(site.Key[4..]);
    }

    [Theory]
    [InlineData("", "Tern", "name")]
    [InlineData("Logger", "Nobody", "no barge 'Nobody'")]
    [InlineData("Logger", null, "Choose the barges")]
    public async Task A_key_needs_a_name_and_barges_of_the_site(string name, string? barge, string said)
    {
        await using SentSite site = await SentSite.OpenAsync(database);

        MadeKey made = await site.Get<SenderKeys>().MakeAsync(await site.PermitAsync(Role.Administrator), name, barge is null ? [] : [barge], Cancellation);

        made.Text.ShouldBeNull();
        made.Refusal.ShouldNotBeNull().ShouldContain(said);
    }
}
