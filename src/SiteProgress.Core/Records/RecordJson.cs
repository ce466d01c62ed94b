using System.Text.Json;
using System.Text.Json.Serialization;
using NodaTime;
using NodaTime.Text;

namespace SiteProgress.Core.Records;

/// <summary>
/// The body of a record as bytes and back. The bytes are JSON without white space, fields in the order in which the body
/// type declares them, absent values left out, numbers in the shortest form that reads back to the same double,
/// everything outside ASCII escaped. What was written is kept as written: an old body is read, never written again.
/// </summary>
public static class RecordJson
{
    /// <summary>Settings used for bodies and for the settings files that operators write.</summary>
    public static JsonSerializerOptions Options { get; } = Make();

    private static readonly RecordJsonContext Context = new(new JsonSerializerOptions(Options));

    /// <summary>The body as bytes.</summary>
    public static byte[] ToBytes(RecordBody body)
    {
        ArgumentNullException.ThrowIfNull(body);
        return JsonSerializer.SerializeToUtf8Bytes(body, body.GetType(), Context);
    }

    /// <summary>The body from its bytes.</summary>
    /// <exception cref="InvalidDataException">The bytes are not a body of this kind: the store was altered or is newer.</exception>
    public static RecordBody FromBytes(RecordKind kind, ReadOnlySpan<byte> bytes)
    {
        try
        {
            return (RecordBody?)JsonSerializer.Deserialize(bytes, TypeOf(kind), Context)
                ?? throw new InvalidDataException($"A record of kind {kind} has an empty body.");
        }
        catch (JsonException exception)
        {
            throw new InvalidDataException($"The body of a record of kind {kind} cannot be read.", exception);
        }
    }

    private static Type TypeOf(RecordKind kind) => kind switch
    {
        RecordKind.SiteOpened or RecordKind.SettingsRevised => typeof(SettingsBody),
        RecordKind.SettingsProposed => typeof(SettingsProposedBody),
        RecordKind.SettingsDecided => typeof(SettingsDecidedBody),
        RecordKind.RoleGranted => typeof(RoleGrantedBody),
        RecordKind.RoleWithdrawn => typeof(RoleWithdrawnBody),
        RecordKind.AdjustmentAdopted => typeof(AdjustmentBody),
        RecordKind.ControlPointObserved => typeof(ControlPointObservedBody),
        RecordKind.ObservationWithdrawn => typeof(ObservationWithdrawnBody),
        RecordKind.ProjectedCrsOffered => typeof(ProjectedCrsOfferedBody),
        RecordKind.BatchRecorded => typeof(BatchBody),
        RecordKind.BatchWithdrawn => typeof(BatchWithdrawnBody),
        RecordKind.PilePlanned => typeof(PilePlannedBody),
        RecordKind.PileInstalled => typeof(PileInstalledBody),
        RecordKind.PositionChecked => typeof(PositionCheckedBody),
        RecordKind.MatchesDecided => typeof(MatchesDecidedBody),
        RecordKind.MatchDecisionWithdrawn => typeof(MatchDecisionWithdrawnBody),
        RecordKind.CorrectionProposed => typeof(CorrectionProposedBody),
        RecordKind.CorrectionDecided => typeof(CorrectionDecidedBody),
        RecordKind.CorrectionWithdrawn => typeof(CorrectionWithdrawnBody),
        RecordKind.PenetrationTested => typeof(PenetrationTestedBody),
        RecordKind.SandDelivered => typeof(SandDeliveredBody),
        RecordKind.PileLogged => typeof(PileLoggedBody),
        RecordKind.Calibrated => typeof(CalibratedBody),
        RecordKind.WaterLevelsObserved => typeof(WaterLevelsBody),
        RecordKind.HandOverOffered => typeof(HandOverOfferedBody),
        RecordKind.HandOverAnswered => typeof(HandOverAnsweredBody),
        RecordKind.SeabedSurveyed => typeof(SeabedSurveyedBody),
        RecordKind.GaugeRevised => typeof(GaugeRevisedBody),
        RecordKind.GaugeChecked => typeof(GaugeCheckedBody),
        RecordKind.ClockCorrected => typeof(ClockCorrectedBody),
        RecordKind.SenderKeyMade => typeof(SenderKeyMadeBody),
        RecordKind.SenderKeyWithdrawn => typeof(SenderKeyWithdrawnBody),
        RecordKind.DiaryEntered => typeof(DiaryLineBody),
        RecordKind.DiaryDayKept => typeof(DiaryDayBody),
        RecordKind.ProgressPlanned => typeof(ProgressPlannedBody),
        RecordKind.WorkPlanRevised => typeof(WorkPlanBody),
        RecordKind.DayNotesKept => typeof(DayNotesBody),
        RecordKind.DailyReportIssued => typeof(DailyReportIssuedBody),
        RecordKind.DailyReportSigned or RecordKind.DailyReportCountersigned => typeof(DailyReportSignedBody),
        RecordKind.DailyReportDisputed => typeof(DailyReportDisputedBody),
        RecordKind.NonConformanceRaised => typeof(NonConformanceRaisedBody),
        RecordKind.DispositionProposed => typeof(DispositionProposedBody),
        RecordKind.DispositionDecided => typeof(DispositionDecidedBody),
        RecordKind.CommentMade => typeof(CommentMadeBody),
        RecordKind.DueDateSet => typeof(DueDateSetBody),
        RecordKind.EvidenceGiven => typeof(EvidenceGivenBody),
        RecordKind.ClosureDecided => typeof(ClosureDecidedBody),
        RecordKind.LotSubmitted => typeof(LotSubmittedBody),
        RecordKind.LotReturned => typeof(LotReturnedBody),
        RecordKind.PilesAccepted => typeof(PilesAcceptedBody),
        RecordKind.AcceptanceWithdrawn => typeof(AcceptanceWithdrawnBody),
        RecordKind.HoldPointSet => typeof(HoldPointSetBody),
        RecordKind.HoldPointSigned => typeof(HoldPointSignedBody),
        RecordKind.HoldPointWithdrawn => typeof(HoldPointWithdrawnBody),
        RecordKind.FileAttached => typeof(FileAttachedBody),
        RecordKind.DesignChangeProposed => typeof(DesignChangeProposedBody),
        RecordKind.DesignChangeDecided => typeof(DesignChangeDecidedBody),
        RecordKind.AttachmentWithdrawn => typeof(AttachmentWithdrawnBody),
        _ => throw new InvalidDataException($"There is no record kind {kind}."),
    };

    private static JsonSerializerOptions Make()
    {
        JsonSerializerOptions options = new()
        {
            PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
            DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
            IgnoreReadOnlyProperties = true,
            UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
            RespectNullableAnnotations = true,
            RespectRequiredConstructorParameters = false,
        };
        options.Converters.Add(new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false));
        options.Converters.Add(new InstantConverter());
        options.Converters.Add(new LocalDateConverter());
        options.Converters.Add(new LocalTimeConverter());
        return options;
    }

    private sealed class InstantConverter : JsonConverter<Instant>
    {
        public override Instant Read(ref Utf8JsonReader reader, Type type, JsonSerializerOptions options)
            => Parse(InstantPattern.ExtendedIso, ref reader);

        public override void Write(Utf8JsonWriter writer, Instant value, JsonSerializerOptions options)
            => writer.WriteStringValue(InstantPattern.ExtendedIso.Format(value));
    }

    private sealed class LocalDateConverter : JsonConverter<LocalDate>
    {
        public override LocalDate Read(ref Utf8JsonReader reader, Type type, JsonSerializerOptions options)
            => Parse(LocalDatePattern.Iso, ref reader);

        public override void Write(Utf8JsonWriter writer, LocalDate value, JsonSerializerOptions options)
            => writer.WriteStringValue(LocalDatePattern.Iso.Format(value));
    }

    private sealed class LocalTimeConverter : JsonConverter<LocalTime>
    {
        private static readonly LocalTimePattern HourAndMinute = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

        public override LocalTime Read(ref Utf8JsonReader reader, Type type, JsonSerializerOptions options)
            => Parse(HourAndMinute, ref reader);

        public override void Write(Utf8JsonWriter writer, LocalTime value, JsonSerializerOptions options)
            => writer.WriteStringValue(HourAndMinute.Format(value));
    }

    private static T Parse<T>(IPattern<T> pattern, ref Utf8JsonReader reader)
    {
        string text = reader.GetString() ?? "";
        ParseResult<T> result = pattern.Parse(text);
        return result.Success ? result.Value : throw new JsonException($"'{text}' is not a {typeof(T).Name}.");
    }
}

[JsonSerializable(typeof(SettingsBody))]
[JsonSerializable(typeof(SettingsProposedBody))]
[JsonSerializable(typeof(SettingsDecidedBody))]
[JsonSerializable(typeof(RoleGrantedBody))]
[JsonSerializable(typeof(RoleWithdrawnBody))]
[JsonSerializable(typeof(AdjustmentBody))]
[JsonSerializable(typeof(ControlPointObservedBody))]
[JsonSerializable(typeof(ObservationWithdrawnBody))]
[JsonSerializable(typeof(ProjectedCrsOfferedBody))]
[JsonSerializable(typeof(BatchBody))]
[JsonSerializable(typeof(BatchWithdrawnBody))]
[JsonSerializable(typeof(PilePlannedBody))]
[JsonSerializable(typeof(PileInstalledBody))]
[JsonSerializable(typeof(PositionCheckedBody))]
[JsonSerializable(typeof(MatchesDecidedBody))]
[JsonSerializable(typeof(MatchDecisionWithdrawnBody))]
[JsonSerializable(typeof(CorrectionProposedBody))]
[JsonSerializable(typeof(CorrectionDecidedBody))]
[JsonSerializable(typeof(CorrectionWithdrawnBody))]
[JsonSerializable(typeof(PenetrationTestedBody))]
[JsonSerializable(typeof(SandDeliveredBody))]
[JsonSerializable(typeof(PileLoggedBody))]
[JsonSerializable(typeof(CalibratedBody))]
[JsonSerializable(typeof(WaterLevelsBody))]
[JsonSerializable(typeof(HandOverOfferedBody))]
[JsonSerializable(typeof(HandOverAnsweredBody))]
[JsonSerializable(typeof(SeabedSurveyedBody))]
[JsonSerializable(typeof(GaugeRevisedBody))]
[JsonSerializable(typeof(GaugeCheckedBody))]
[JsonSerializable(typeof(ClockCorrectedBody))]
[JsonSerializable(typeof(SenderKeyMadeBody))]
[JsonSerializable(typeof(SenderKeyWithdrawnBody))]
[JsonSerializable(typeof(DiaryLineBody))]
[JsonSerializable(typeof(DiaryDayBody))]
[JsonSerializable(typeof(ProgressPlannedBody))]
[JsonSerializable(typeof(WorkPlanBody))]
[JsonSerializable(typeof(DayNotesBody))]
[JsonSerializable(typeof(DailyReportIssuedBody))]
[JsonSerializable(typeof(DailyReportSignedBody))]
[JsonSerializable(typeof(DailyReportDisputedBody))]
[JsonSerializable(typeof(NonConformanceRaisedBody))]
[JsonSerializable(typeof(DispositionProposedBody))]
[JsonSerializable(typeof(DispositionDecidedBody))]
[JsonSerializable(typeof(CommentMadeBody))]
[JsonSerializable(typeof(DueDateSetBody))]
[JsonSerializable(typeof(EvidenceGivenBody))]
[JsonSerializable(typeof(ClosureDecidedBody))]
[JsonSerializable(typeof(LotSubmittedBody))]
[JsonSerializable(typeof(LotReturnedBody))]
[JsonSerializable(typeof(PilesAcceptedBody))]
[JsonSerializable(typeof(AcceptanceWithdrawnBody))]
[JsonSerializable(typeof(HoldPointSetBody))]
[JsonSerializable(typeof(HoldPointSignedBody))]
[JsonSerializable(typeof(HoldPointWithdrawnBody))]
[JsonSerializable(typeof(FileAttachedBody))]
[JsonSerializable(typeof(DesignChangeProposedBody))]
[JsonSerializable(typeof(DesignChangeDecidedBody))]
[JsonSerializable(typeof(AttachmentWithdrawnBody))]
internal sealed partial class RecordJsonContext : JsonSerializerContext;
