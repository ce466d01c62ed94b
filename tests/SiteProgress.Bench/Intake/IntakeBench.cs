using System.Diagnostics;
using System.Globalization;
using Npgsql;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;

namespace SiteProgress.Bench.Intake;

/// <summary>
/// 100,000 as-built rows from file to committed, judged and visible, against a binary COPY of the same rows into the same
/// tables with the same indexes and durability. Beside it a plain COPY of the file's text into a table without index, the
/// peak memory, and the time of matching at three sizes.
/// </summary>
internal static class IntakeBench
{
    private const int Rows = 100_000;
    private const string Ours = "SiteProgress", Copy = "binary COPY", Plain = "plain COPY of text";

    public static async Task<IReadOnlyList<Outcome>> RunAsync(TextWriter output)
    {
        (string Database, Guid Surveyor) prepared = await IntakeStore.PrepareAsync(Rows);
        byte[] file = IntakeFiles.Installed(Rows, seed: 7);
        long before = PeakMegabytes();
        (CopyPeer peer, long alone) = await TakePeerAsync(prepared, file);
        IReadOnlyDictionary<string, IReadOnlyList<double>> seconds = await Rounds.RunAsync(
            [Ours, Copy, Plain], contender => TurnAsync(contender, prepared, file, peer));

        await output.WriteLineAsync(Text($"intake: {Rows} installations, {file.Length / 1048576.0:0.0} MB of text, {Rows} planned piles; median of {Rounds.Counted} (least to most)"));
        foreach ((string name, IReadOnlyList<double> values) in seconds)
        {
            await output.WriteLineAsync(Text($"{name,-22}{Rounds.Median(values),8:0.00} s ({values.Min():0.00} to {values.Max():0.00})"));
        }

        await output.WriteLineAsync(Text($"peak memory of the process: {before} MB after preparing the planned piles, {alone} MB once the product alone had brought the file in, {PeakMegabytes()} MB at the end with the peer's copies of the rows"));
        foreach (int size in new[] { 1_000, 10_000, 100_000 })
        {
            await output.WriteLineAsync(Text($"matching {size,7} against {size,7}: {MatchSeconds(size) * 1000,8:0.0} ms"));
        }

        return [new Outcome("intake", Rounds.Median(seconds[Copy]) / Rounds.Median(seconds[Ours]), 0.33)];
    }

    private static long PeakMegabytes()
    {
        using Process self = Process.GetCurrentProcess();
        return self.PeakWorkingSet64 >> 20;
    }

    private static async Task<(CopyPeer Peer, long AloneMegabytes)> TakePeerAsync((string Database, Guid Surveyor) prepared, byte[] file)
    {
        await using IntakeStore store = await IntakeStore.CopyAsync(prepared);
        await using NpgsqlCommand count = store.Store.CreateCommand("select max(sequence) from record.site_record");
        long before = (long)(await count.ExecuteScalarAsync())!;
        await store.BringInAsync("installed.csv", file);
        long alone = PeakMegabytes();
        CopyPeer peer = await CopyPeer.TakeAsync(store.Store, before);
        await store.DropAsync();
        return (peer, alone);
    }

    private static async Task<double> TurnAsync(string contender, (string Database, Guid Surveyor) prepared, byte[] file, CopyPeer peer)
    {
        IntakeStore store = await IntakeStore.CopyAsync(prepared);
        await MakePlainTableAsync(store);
        Stopwatch watch = Stopwatch.StartNew();
        switch (contender)
        {
            case Ours: await store.BringInAsync("installed.csv", file); break;
            case Copy: await peer.RunAsync(store.Store); break;
            default: await PlainAsync(store, file); break;
        }

        double seconds = watch.Elapsed.TotalSeconds;
        await store.DropAsync();
        return seconds;
    }

    private static async Task MakePlainTableAsync(IntakeStore store)
    {
        await using NpgsqlCommand table = store.Store.CreateCommand("create table plain (line text)");
        await table.ExecuteNonQueryAsync();
    }

    private static async Task PlainAsync(IntakeStore store, byte[] file)
    {
        await using NpgsqlConnection connection = await store.Store.OpenConnectionAsync();
        await using TextWriter rows = await connection.BeginTextImportAsync("copy plain from stdin");
        await rows.WriteAsync(System.Text.Encoding.UTF8.GetString(file));
    }

    private static double MatchSeconds(int size)
    {
        Zone zone = new(
            "A", "A", Pattern.Square, 2.1, null, 2, 0, -10, TipRule.Level, null, null, 0.7, 3.14, "S", new Limits(0.15, 0.3, 0, 0.05, null, "a", "b"), null, [], []);
        SiteSettings settings = new(
            "match", "match", true, "UTC", default, [], 25832, new LevelDatum("d", "d"), new GridAxes("X", "Y"), "A-Z0-9-", 0.03, [], [zone], []);
        PlannedPile[] piles = new PlannedPile[size];
        LocatedInstallation[] built = new LocatedInstallation[size];
        for (int index = 0; index < size; index++)
        {
            SiteCoordinate at = new(index % 300 * 2.1, index / 300 * 2.1);
            string number = index.ToString(CultureInfo.InvariantCulture);
            piles[index] = new PlannedPile(index, number, "A", at, 2, 0, -10, null, null);
            Installation recorded = new(
                "r" + number, number, "Tern", 1, null, null, null, null, null, null, null, null, 0, -10, 1, null, null, FixType.RtkFixed, null, Core.Piles.Outcome.Complete, null);
            built[index] = new LocatedInstallation(index, 1, 1, recorded, null, new SiteCoordinate(at.XMetres + 0.1, at.YMetres));
        }

        Stopwatch watch = Stopwatch.StartNew();
        NumberAndPosition.Settle(built, new DesignIndex(piles, settings));
        return watch.Elapsed.TotalSeconds;
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
