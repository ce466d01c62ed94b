using System.Diagnostics;
using System.Globalization;
using NodaTime;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.DemoGenerator;
using SiteProgress.DemoGenerator.Logs;

namespace SiteProgress.Bench.Logs;

/// <summary>Deriving a site of 6,000 piles, each with a log of about 3,600 samples, against deriving the same site without a log.</summary>
internal static class LogDerivationBench
{
    private const string WithLogs = "with logs", Without = "without logs";
    private const int Piles = 6000, Distinct = 60;
    private const double Goal = 0.5;

    private const string Crs =
        """PROJCS["ETRS89 / UTM zone 32N",GEOGCS["ETRS89",DATUM["European_Terrestrial_Reference_System_1989",SPHEROID["GRS 1980",6378137,298.257222101],TOWGS84[0,0,0,0,0,0,0]],PRIMEM["Greenwich",0],UNIT["degree",0.0174532925199433]],PROJECTION["Transverse_Mercator"],PARAMETER["latitude_of_origin",0],PARAMETER["central_meridian",9],PARAMETER["scale_factor",0.9996],PARAMETER["false_easting",500000],PARAMETER["false_northing",0],UNIT["metre",1]]""";

    public static async Task<IReadOnlyList<Outcome>> RunAsync(TextWriter output)
    {
        Shelf shelf = new([.. Enumerable.Range(1, Distinct).Select(Make)]);
        SiteHistory plain = History(withLogs: false), logged = History(withLogs: true);
        var begin = Stopwatch.GetTimestamp();
        DerivedSite first = SiteDerivation.Derive(logged.ReadBy(new LogReadings(shelf)));
        double cold = Stopwatch.GetElapsedTime(begin).TotalSeconds;
        int judged = first.Piles.Count(pile => pile.Judgement.Logs is [{ Figures.Why: null }]);
        if (judged != Piles) throw new InvalidDataException($"Only {judged} of {Piles} piles were judged by their log.");
        LogReadings kept = new(shelf);
        SiteHistory warm = logged.ReadBy(kept);
        SiteDerivation.Derive(warm);
        var measured = await Rounds.RunAsync([WithLogs, Without], name =>
        {
            var start = Stopwatch.GetTimestamp();
            SiteDerivation.Derive(name == WithLogs ? warm : plain);
            return Task.FromResult(Stopwatch.GetElapsedTime(start).TotalSeconds);
        });
        await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture,
            $"{Piles} piles with a log of {shelf.MeanSamples:0} samples each: first deriving, every log read from its canonical bytes {cold:0.00} s; again {Rounds.Median(measured[WithLogs]):0.000} s; the same piles without a log {Rounds.Median(measured[Without]):0.000} s"));
        return [new("logs-derived-anew-against-none", Rounds.Median(measured[Without]) / Rounds.Median(measured[WithLogs]), Goal)];
    }

    private static byte[] Make(int seed)
    {
        var chance = ChanceSource.For(seed, "log times");
        var design = MadeLog.AnyDesign(chance) with { BuildingMinutes = 40, PenetrationMinutes = 16 };
        return LogBytes.Write(LogMaker.Samples(MadeLog.Make(design, LogGauges.Family("white", chance) with { Spacing = 1, SandMeasure = 1, TipMeasure = 1 }, chance)));
    }

    private static SiteHistory History(bool withLogs)
    {
        List<RecordEntry> records = [];
        long? batch = null;
        void Add(RecordBody body)
        {
            long sequence = records.Count + 1;
            if (body is BatchBody) batch = sequence;
            records.Add(new RecordEntry(sequence, body.Kind, Instant.FromUtc(2026, 3, 1, 0, 0), "bench", body is IRowBody ? batch : null, RecordJson.ToBytes(body), ChainHash.BeforeFirst));
        }

        Add(new SettingsBody(Settings, null, First: true));
        Add(new AdjustmentBody(new Adjustment(AdjustmentKind.Similarity, 1, 1, 0, 0, 1, new SiteCoordinate(0, 0), new ProjectedCoordinate(390000, 6161000)), 25832, Crs, [], "Opening."));
        Add(Batch(BatchContent.PlannedPiles));
        for (int pile = 0; pile < Piles; pile++) Add(new PilePlannedBody(pile + 2, new AsPlanned(Number(pile), "A", At(pile), null, null, null, null, null)));
        Add(Batch(BatchContent.Installations));
        for (int pile = 0; pile < Piles; pile++) Add(new PileInstalledBody(pile + 2, Built(pile)));
        if (!withLogs) return SiteHistory.Empty.With(records);
        Add(Batch(BatchContent.PileLogs));
        for (int pile = 0; pile < Piles; pile++)
            Add(new PileLoggedBody(pile + 2, new LoggedPile($"R-{pile}", Number(pile), "Tern", (pile % 3) + 1, Start(pile), Start(pile) + Duration.FromMinutes(58), 3600, pile.ToString("x64", CultureInfo.InvariantCulture))));
        return SiteHistory.Empty.With(records);
    }

    private static Installation Built(int pile) => new(
        $"R-{pile}", Number(pile), "Tern", (pile % 3) + 1, $"S{pile / 3}", Start(pile), Start(pile) + Duration.FromMinutes(16), Start(pile) + Duration.FromMinutes(56), At(pile), At(pile), 33, North.CrsGrid,
        -12.4, -28.1, 68, 0.3, null, FixType.RtkFixed, 0.03, Core.Piles.Outcome.Complete, null);

    private static Instant Start(int pile) => Instant.FromUtc(2026, 3, 2, 5, 0) + Duration.FromHours(pile / 3);

    private static RecordedPosition At(int pile) => new(Frame.SiteGrid, pile % 100 * 2.1, pile / 100 * 2.1);

    private static string Number(int pile) => $"A-{pile + 1:0000}";

    private static BatchBody Batch(BatchContent content) => new(Guid.Empty, "bench.csv", new string('0', 64), content, 1, Piles, Piles, [], []);

    private static SiteSettings Settings { get; } = new(
        "bench-logs", "Bench", true, "Europe/Copenhagen", new LocalTime(6, 0), [], 25832, new LevelDatum("SLD", "Invented datum"), new GridAxes("X", "Y"), "A-Z0-9-", 0.03,
        [new SandSource("Pit 1", 0.8, new LocalDate(2026, 2, 1), "Trial 1")],
        [
            new Zone(
                "A", "Zone A", Pattern.Square, 2.1, null, 2.0, -12.4, -28.0, TipRule.Level, null, null, 0.7124, 3.1416, "Pit 1",
                new Limits(0.150, 0.300, 0.2, 0.05, 1.2, "Approval 1", "Clause 4.2", DiameterShortRatio: 0.1, GapMetres: 0.3), 0.100, [CheckName.Position, CheckName.LeastDiameter], []),
        ],
        [new Barge("Tern", [new Casing(1, 1.2, 1.25, 20, 0), new Casing(2, 1.2, 1.25, 20, 2.1), new Casing(3, 1.2, 1.25, 20, 4.2)], null)]);

    /// <summary>Canonical bytes as the store keeps them; the hash of a pile stands for one of a few distinct logs.</summary>
    private sealed class Shelf(byte[][] logs) : ILogShelf
    {
        public double MeanSamples => logs.Average(bytes => LogBytes.Read(bytes).Count);

        public PileLog? Find(string sha256) => LogBytes.Read(logs[(int)(long.Parse(sha256.AsSpan(48), NumberStyles.HexNumber, CultureInfo.InvariantCulture) % logs.Length)]);
    }
}
