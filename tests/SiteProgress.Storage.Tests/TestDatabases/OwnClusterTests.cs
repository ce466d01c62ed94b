using Npgsql;
using Shouldly;
using SiteProgress.TestSupport;
using Xunit;

namespace SiteProgress.Storage.Tests.TestDatabases;

public sealed class OwnClusterTests
{
    [Fact]
    public async Task A_killed_server_starts_again_with_what_was_committed_and_nothing_else()
    {
        var cancellation = TestContext.Current.CancellationToken;
        await using var cluster = await OwnCluster.StartAsync();
        await using (var source = NpgsqlDataSource.Create(cluster.OwnerConnectionString))
        {
            await ExecuteAsync(source, "create table pile (number text)");
            await ExecuteAsync(source, "insert into pile values ('A-1')");
            await using var connection = await source.OpenConnectionAsync(cancellation);
            await using var transaction = await connection.BeginTransactionAsync(cancellation);
            await using var command = new NpgsqlCommand("insert into pile values ('A-2')", connection, transaction);
            await command.ExecuteNonQueryAsync(cancellation);

            await cluster.KillAsync();
            await Should.ThrowAsync<NpgsqlException>(() => transaction.CommitAsync(cancellation));
        }

        await cluster.StartAgainAsync();
        await using var again = NpgsqlDataSource.Create(cluster.OwnerConnectionString);
        await using var question = again.CreateCommand("select string_agg(number, ',') from pile");
        (await question.ExecuteScalarAsync(cancellation)).ShouldBe("A-1");
    }

    private static async Task ExecuteAsync(NpgsqlDataSource source, string statement)
    {
        await using var command = source.CreateCommand(statement);
        await command.ExecuteNonQueryAsync(TestContext.Current.CancellationToken);
    }
}
