using NodaTime;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;

namespace SiteProgress.Core.Tests.Treatment;

/// <summary>An invented site as a growing list of records, derived anew each time it is asked.</summary>
internal sealed class RecordedSite
{
    private const string Crs =
        """PROJCS["ETRS89 / UTM zone 32N",GEOGCS["ETRS89",DATUM["European_Terrestrial_Reference_System_1989",SPHEROID["GRS 1980",6378137,298.257222101],TOWGS84[0,0,0,0,0,0,0]],PRIMEM["Greenwich",0],UNIT["degree",0.0174532925199433]],PROJECTION["Transverse_Mercator"],PARAMETER["latitude_of_origin",0],PARAMETER["central_meridian",9],PARAMETER["scale_factor",0.9996],PARAMETER["false_easting",500000],PARAMETER["false_northing",0],UNIT["metre",1]]""";

    private readonly List<RecordEntry> _records = [];
    private long? _batch;
    private Instant _now = Instant.FromUtc(2026, 3, 9, 8, 0);

    public RecordedSite(LotRules? rules = null, SandAgreement? sand = null)
    {
        SiteSettings settings = Invented.Settings with { Zones = [Invented.ZoneA with { LotRules = rules }], SandAgreement = sand };
        Add(new SettingsBody(settings, null, First: true));
        Add(new AdjustmentBody(
            new Adjustment(AdjustmentKind.Similarity, 1, 1, 0, 0, 1, new SiteCoordinate(0, 0), new ProjectedCoordinate(390000, 6161000)), 25832, Crs, [], "Opening."));
    }

    public DerivedSite Derived => SiteDerivation.Derive(SiteHistory.Empty.With(_records));

    public TreatedSite Treated => Derived.Treated;

    public long Last => _records[^1].Sequence;

    /// <summary>Appends a record, a minute after the one before.</summary>
    public long Add(RecordBody body, string by = "account surveyor")
    {
        _now += Duration.FromMinutes(1);
        bool row = body is PilePlannedBody or PileInstalledBody or SandDeliveredBody;
        long sequence = _records.Count + 1;
        _records.Add(new RecordEntry(sequence, body.Kind, _now, by, row ? _batch : null, RecordJson.ToBytes(body), ChainHash.BeforeFirst));
        if (body is BatchBody) _batch = sequence;
        return sequence;
    }

    /// <summary>Adopts an adjustment that puts the origin of the site grid elsewhere.</summary>
    public void Adopt(ProjectedCoordinate origin, int epsg = 25832) => Add(new AdjustmentBody(
        new Adjustment(AdjustmentKind.Similarity, 2, 1, 0, 0, 1, new SiteCoordinate(0, 0), origin), epsg, Crs, [], "Observed anew."));

    /// <summary>Plans piles in a row along the first axis.</summary>
    public void Plan(params string[] numbers)
    {
        Batch(BatchContent.PlannedPiles);
        foreach (string number in numbers)
        {
            Add(new PilePlannedBody(1, new AsPlanned(number, "A", new RecordedPosition(Frame.SiteGrid, X(number), 50), null, null, null, null, null)));
        }
    }

    /// <summary>Records a schedule that says of itself what it is; numbers with their places along the first axis.</summary>
    public long Revise(DesignStatement statement, params (string Number, double X)[] piles)
    {
        long batch = Add(new BatchBody(Guid.Empty, "revision.csv", new string('1', 64), BatchContent.PlannedPiles, 1, piles.Length, piles.Length, [], [], Design: statement));
        foreach ((string number, double x) in piles)
            Add(new PilePlannedBody(1, new AsPlanned(number, "A", new RecordedPosition(Frame.SiteGrid, x, 50), null, null, null, null, null)));
        return batch;
    }

    /// <summary>Builds a pile off its place along the first axis, and gives the record that stands.</summary>
    public long Build(string number, double offMetres = 0.03, Func<Installation, Installation>? change = null, double? atX = null)
    {
        Batch(BatchContent.Installations);
        Installation built = Invented.Built(number, (atX ?? X(number)) + offMetres, 50) with { RecordId = $"R-{_records.Count}" };
        Instant start = Instant.FromUtc(2026, 3, 9, 9, 0) + Duration.FromMinutes(_records.Count);
        built = built with { Start = start, EndOfPenetration = start + Duration.FromMinutes(15), End = start + Duration.FromMinutes(45) };
        return Add(new PileInstalledBody(1, change is null ? built : change(built)));
    }

    /// <summary>Records lines of the sand account of Tern, days after the morning of 9 March 2026.</summary>
    public void Sand(params (int Day, SandEntry Entry, double CubicMetres)[] lines)
    {
        Batch(BatchContent.SandDeliveries);
        foreach ((int day, SandEntry entry, double volume) in lines)
            Add(new SandDeliveredBody(1, new SandDelivery(null, Instant.FromUtc(2026, 3, 9, 5, 0) + Duration.FromDays(day), entry, "Pit 1", "Tern", volume, null)));
    }

    public void Withdraw(long record) => Add(new BatchWithdrawnBody(record - 1, "wrong file"));

    public int Raise(params string[] piles)
    {
        FindingShown[] findings = [.. piles.SelectMany(Treated.FreeFindings)];
        int number = Treated.NonConformances.Count + 1;
        Add(new NonConformanceRaisedBody(number, findings, "beyond the limit", new LocalDate(2026, 3, 20)));
        return number;
    }

    public void Propose(int number, Disposition disposition, params AdditionalPile[] additional)
        => Add(new DispositionProposedBody(number, disposition, "as the designer says", "D-1", additional.Length == 0 ? null : additional, Shown(number)));

    public void Decide(int number, bool approve = true)
    {
        NonConformance one = One(number);
        SignedPile[]? accepted = approve && one.Proposal!.Disposition == Disposition.UseAsIs
            ? [.. one.Piles().Where(pile => Treated.WouldBeReady(pile, number)).Select(pile => new SignedPile(pile, Treated.SheetOf(pile)!.Hash))]
            : null;
        Add(new DispositionDecidedBody(number, one.Proposal!.Sequence, approve, "seen", Shown(number), TreatmentSheets.Of(one).Hash, accepted), "account owner");
    }

    public void Evidence(int number) => Add(new EvidenceGivenBody(number, "photo 12", "topped up"));

    public void Verify(int number, bool verified = true)
        => Add(new ClosureDecidedBody(number, verified, "looked at it", Shown(number), TreatmentSheets.Of(One(number)).Hash), "account owner");

    public void Accept(params string[] piles)
        => Add(new PilesAcceptedBody([.. piles.Select(pile => new SignedPile(pile, Treated.SheetOf(pile)!.Hash))], null, null, "", "00"), "account owner");

    public NonConformance One(int number) => Treated.NonConformances.Single(one => one.Number == number);

    public PileState State(string pile) => Treated.Find(pile)!.State;

    private IReadOnlyList<FindingShown> Shown(int number) => [.. One(number).Findings.Select(finding => new FindingShown(finding.Pile, finding.Check, finding.Now, finding.Account))];

    private void Batch(BatchContent content)
        => Add(new BatchBody(Guid.Empty, "file.csv", new string('0', 64), content, 1, 1, 1, [], []));

    private static double X(string number) => double.Parse(number[2..], System.Globalization.CultureInfo.InvariantCulture) * 2.1;
}
