using System.Text;
using NodaTime;
using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Ground;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using Xunit;

namespace SiteProgress.Core.Tests.Records;

public sealed class RecordJsonTests
{
    public static TheoryData<RecordBody> Bodies => new()
    {
        new SettingsBody(Invented.Settings, null, true),
        new SettingsBody(Invented.Settings, "{}", false),
        new RoleGrantedBody(Guid.Parse("6f9619ff-8b86-d011-b42d-00c04fc964ff"), "Surveyor"),
        new RoleWithdrawnBody(Guid.Parse("6f9619ff-8b86-d011-b42d-00c04fc964ff")),
        new AdjustmentBody(
            SimilarityFit.Solve([Mark("M1", 0, 0, 500000, 6000000), Mark("M2", 100, 0, 500100, 6000000), Mark("M3", 0, 100, 500000, 6000100)]).Adjustment!,
            25832, "PROJCS[]", [Mark("M1", 0, 0, 500000, 6000000)], "Opening"),
        new AdjustmentBody(
            new Adjustment(AdjustmentKind.Rigid, 2, 1, 0, 0, 1, new SiteCoordinate(0, 0), new ProjectedCoordinate(500000, 6000000)),
            0, "PROJCS[]", [Mark("M1", 0, 0, 500000, 6000000)], "Surveyed anew", [new RecordedPosition(Frame.Geographic, 54.1, 9)]),
        new ControlPointObservedBody("CP-1", new RecordedPosition(Frame.ProjectedCrs, 392589.492, 6162982.201), 1, 0.004, new LocalDate(2026, 5, 4), "GNSS, two sessions"),
        new ObservationWithdrawnBody(31, "wrong antenna height"),
        new ProjectedCrsOfferedBody(25833, "PROJCS[]", "The client's drawings"),
        new BatchBody(Guid.Parse("6f9619ff-8b86-d011-b42d-00c04fc964ff"), "a.csv", new string('a', 64), BatchContent.Installations, 1, 3, 2, [7], ["UTF-8"]),
        new BatchBody(
            Guid.Parse("6f9619ff-8b86-d011-b42d-00c04fc964ff"), "c.csv", new string('d', 64), BatchContent.PlannedPiles, 1, 1, 1, [], [],
            Design: new DesignStatement(DesignScope.Zones, Instant.FromUtc(2026, 3, 1, 12, 0), "C", ["A"])),
        new DesignChangeProposedBody([new ChangedPile("A-1", "built by revision 1; revision 2: taken out of the design")], DesignChangeAnswer.KeepAsBuilt, "the designer's letter 7"),
        new DesignChangeDecidedBody(14, true, "agreed"),
        new BatchWithdrawnBody(12, "sent twice"),
        new PilePlannedBody(2, new AsPlanned("A-0001", "A", new RecordedPosition(Frame.ProjectedCrs, 452178.366, 3890605.77), 2, -12.4, null, null, "Å\u0000\"<")),
        new PileInstalledBody(3, Invented.Built("A-0001", 1.1, 2.2)),
        new PositionCheckedBody(4, new CheckMeasurement(Instant.FromUtc(2026, 3, 1, 12, 0), "Tern", 1, null, new RecordedPosition(Frame.SiteGrid, 1, 2), new RecordedPosition(Frame.SiteGrid, 1.1, 2.1), "total station", 0.02)),
        new BatchBody(
            Guid.Parse("6f9619ff-8b86-d011-b42d-00c04fc964ff"), "b.xlsx", new string('b', 64), BatchContent.PenetrationTests, 1, 1, 1, [], [],
            Reading: new BatchReading(new string('c', 32), [new NamedChoice("content", "penetration-tests"), new NamedChoice("c3", "nvalue")])),
        new PenetrationTestedBody(5, new PenetrationTest("BH01", new RecordedPosition(Frame.ProjectedCrs, 1, 2), -12.4, 13.5, 35, 14, 35, 450, 60, "S", "6,8/8,9,9,9 N=35", null, new LocalDate(2026, 4, 2))),
        new SandDeliveredBody(5, new SandDelivery("S-1", Instant.FromUtc(2026, 3, 1, 12, 0), SandEntry.StockMeasured, "Long Shoal", null, 412.5, null)),
        new PileLoggedBody(2, new LoggedPile("R-1", "A-0001", "Tern", 1, Instant.FromUtc(2026, 3, 1, 12, 0), Instant.FromUtc(2026, 3, 1, 12, 40), 1200, new string('d', 64))),
        new SettingsProposedBody(Invented.Settings, "a tighter limit", 1),
        new SettingsDecidedBody(12, true, "agreed", new string('a', 64)),
        new MatchesDecidedBody([new MatchChoice(41, "A-0001", PositionReading.AxesExchanged), new MatchChoice(42, null)], "as the logbook says"),
        new MatchDecisionWithdrawnBody(30, "another day's logbook"),
        new FileAttachedBody("A-0001", null, new Guid("11111111-2222-3333-4444-555555555555"), "photo.jpg", AttachmentContent.Jpeg, 12, new string('b', 64), "the casing"),
        new AttachmentWithdrawnBody(74, "another pile's"),
        new CorrectionProposedBody("Tern", 1, 0.16, -0.12, [41, 42], [77], "casing measured"),
        new CorrectionDecidedBody(80, true, "seen"),
        new CorrectionWithdrawnBody(80, "measured again"),
        new DiaryLineBody(6, new DiaryEntry(new LocalDate(2026, 3, 1), "Tern", "standby", "weather", "shared", 6.55m)),
        new DiaryDayBody(new LocalDate(2026, 3, 1), "Tern", [new DiaryEntry(new LocalDate(2026, 3, 1), "Tern", "installing", null, null, 24m, "calm")], null),
        new ProgressPlannedBody(7, new PlannedProgress(new LocalDate(2026, 3, 7), null, 120)),
        new WorkPlanBody(
            new WorkPlan(
                [new ZonePlan("A", new LocalDate(2026, 3, 2), null, 21.5m, 1.2m)], [new BargePlan("Tern", null, new LocalDate(2026, 7, 1), ["A"])],
                [IsoDayOfWeek.Sunday], [new LocalDate(2026, 4, 3)], [new RestrictedWindow(new LocalDate(2026, 5, 1), new LocalDate(2026, 5, 9), "A", null, "spawning")], null,
                [new SlackWindow(Instant.FromUtc(2026, 5, 1, 4, 10), Instant.FromUtc(2026, 5, 1, 5, 20), SlackUse.Anchors, "Tern")]),
            "first plan"),
        new DayNotesBody(new LocalDate(2026, 3, 1), new DayNotes("wind west 5", null, null, null, "zone A")),
        new DailyReportIssuedBody(new LocalDate(2026, 3, 1), 1, "{\"a\":1}", 41, new string('a', 64), null),
        new DailyReportSignedBody(new LocalDate(2026, 3, 1), 1, false),
        new DailyReportSignedBody(new LocalDate(2026, 3, 1), 1, true),
        new DailyReportDisputedBody(new LocalDate(2026, 3, 1), 1, "Tern, standby", "the sea was calm"),
        new CalibratedBody(2, new Calibration("Tern", 1, Instant.FromUtc(2026, 3, 1, 12, 0), "Report 7", 20.01, -2.4, 1.13, 0.2, 0.1)),
        new WaterLevelsBody(2, new WaterLevels("Quay", Instant.FromUtc(2026, 3, 1, 0, 0), [[0, 0.54], [600, 0.63]])),
        new HandOverOfferedBody(1, 9674, new string('e', 64), new string('f', 64), 5_500_000, "Zone A as built"),
        new HandOverAnsweredBody(1, false, "The sheets of two piles are missing"),
        new SeabedSurveyedBody(2, new SeabedSoundings("Before the piles", new LocalDate(2026, 2, 20), Frame.SiteGrid, [[1.5, 2.5, -12.4], [3.5, 2.5, -12.55]])),
        new GaugeRevisedBody(new Gauge("Quay", Instant.FromUtc(2026, 3, 1, 0, 0), -1.2, 0.04, 30, "Levelling of 1 March"), "First"),
        new GaugeCheckedBody(new GaugeCheck("Quay", Instant.FromUtc(2026, 3, 1, 12, 0), 0.61, "staff", 0.02)),
        new ClockCorrectedBody(new ClockCorrection("Tern", null, Instant.FromUtc(2026, 3, 1, 0, 0), Instant.FromUtc(2026, 3, 2, 0, 0), 62.5, "Found against the site clock")),
        new SenderKeyMadeBody(Guid.Parse("6f9619ff-8b86-d011-b42d-00c04fc964ff"), "Tern logger", ["Tern"]),
        new SenderKeyWithdrawnBody(Guid.Parse("6f9619ff-8b86-d011-b42d-00c04fc964ff"), "Logger replaced"),
        new NonConformanceRaisedBody(1, [new FindingShown("A-0001", CheckName.Position, "not met")], "beyond the limit", new LocalDate(2026, 3, 20)),
        new NonConformanceRaisedBody(
            2, [new FindingShown("", CheckName.SandAccount, "not met", new SandAccountName("Tern", "Long Shoal", Instant.FromUtc(2026, 3, 1, 5, 0), Instant.FromUtc(2026, 3, 8, 5, 0)))], "a load not written down", null),
        new DispositionProposedBody(1, Disposition.AdditionalPile, "a gap", null, [new AdditionalPile("A-0001-X", "A-0001", 1.5, 2.5)], []),
        new DispositionDecidedBody(1, 40, true, "", [], new string('a', 64), [new SignedPile("A-0001", new string('b', 64))]),
        new CommentMadeBody(1, "seen on site"),
        new DueDateSetBody(1, new LocalDate(2026, 3, 20), "weather"),
        new EvidenceGivenBody(1, "photo 12", "topped up"),
        new ClosureDecidedBody(1, false, "no photo", [], new string('a', 64)),
        new LotSubmittedBody(1, ["A-0001"], "first row"),
        new LotReturnedBody(1, "soundings are missing", new string('a', 64)),
        new PilesAcceptedBody([new SignedPile("A-0001", new string('b', 64))], 1, "zone=A", "", new string('a', 64)),
        new AcceptanceWithdrawnBody(["A-0001"], "the wrong pile"),
        new HoldPointSetBody(1, HoldPointKind.BeforeAnchorsLift, "first position", "clause 7", ["A-0001"], [], "A", "Tern"),
        new HoldPointSignedBody(1, true, "", new string('a', 64)),
        new HoldPointWithdrawnBody(1, "set twice"),
    };

    [Theory]
    [MemberData(nameof(Bodies))]
    public void What_is_written_reads_back_to_the_same_bytes(RecordBody body)
    {
        byte[] bytes = RecordJson.ToBytes(body);

        RecordBody back = RecordJson.FromBytes(body.Kind, bytes);

        back.Kind.ShouldBe(body.Kind);
        RecordJson.ToBytes(back).ShouldBe(bytes);
        bytes.ShouldAllBe(one => one >= 0x20 && one < 0x7f);
    }

    [Fact]
    public void Every_kind_of_record_has_a_body_in_the_test_above()
        => Bodies.Select(row => row.Data.Kind).Distinct().Order().ShouldBe(Enum.GetValues<RecordKind>().Order());

    [Fact]
    public void An_installation_is_written_as_documented()
    {
        string json = Encoding.ASCII.GetString(RecordJson.ToBytes(new PileInstalledBody(3, Invented.Built("A-0001", 1.1, 2.2) with { Remark = null, StopRateMetresPerMinute = null })));

        json.ShouldStartWith("{\"line\":3,\"installation\":{\"recordId\":\"R-A-0001\",\"pileNumber\":\"A-0001\",\"barge\":\"Tern\",\"casing\":1,\"setUp\":\"S1\",\"start\":\"2026-03-10T08:00:00Z\"");
        json.ShouldContain("\"touchDown\":{\"frame\":\"siteGrid\",\"first\":1.1,\"second\":2.2}");
        json.ShouldNotContain("remark");
    }

    [Fact]
    public void An_adjustment_recorded_before_surveyed_positions_were_kept_reads_and_writes_as_it_was()
    {
        byte[] old = Encoding.ASCII.GetBytes("""{"adjustment":{"kind":"similarity","revision":1,"eastPerX":1,"eastPerY":0,"northPerX":0,"northPerY":1,"siteOrigin":{"xMetres":0,"yMetres":0},"projectedOrigin":{"eastingMetres":500000,"northingMetres":6000000}},"epsgCode":25832,"crsWkt":"PROJCS[]","controlPoints":[],"reason":"Opening"}""");

        RecordBody read = RecordJson.FromBytes(RecordKind.AdjustmentAdopted, old);

        ((AdjustmentBody)read).Surveyed.ShouldBeNull();
        RecordJson.ToBytes(read).ShouldBe(old);
    }

    [Fact]
    public void Bytes_that_are_no_body_are_refused_as_damaged()
    {
        Should.Throw<InvalidDataException>(() => RecordJson.FromBytes(RecordKind.PileInstalled, "{\"line\":"u8));
        Should.Throw<InvalidDataException>(() => RecordJson.FromBytes(RecordKind.PileInstalled, "{\"line\":1,\"planted\":true}"u8));
        Should.Throw<InvalidDataException>(() => RecordJson.FromBytes((RecordKind)99, "{}"u8));
    }

    private static ControlPoint Mark(string name, double x, double y, double east, double north)
        => new(name, new SiteCoordinate(x, y), new ProjectedCoordinate(east, north), 0.005);
}
