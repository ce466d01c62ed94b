using System.Globalization;
using System.Text;
using System.Text.Json;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.History;

/// <summary>
/// What a record says, in a sentence. Kinds that are known here have their own words; any other is said by its name and by the
/// members of its body, so that a kind added later shows at once.
/// </summary>
internal static class HistoryWords
{
    private const int MostMembers = 5;
    private const int MostCharacters = 60;

    /// <summary>The sentence, the reason and what it touches.</summary>
    /// <param name="kind">The kind.</param>
    /// <param name="body">The body as kept.</param>
    /// <param name="before">The body of the settings before, for a revision of settings.</param>
    /// <param name="names">Names of accounts.</param>
    public static (string What, string? Why, HistoryTarget? Touches) Of(RecordKind kind, byte[] body, byte[]? before, IReadOnlyDictionary<Guid, string> names)
    {
        RecordBody read = RecordJson.FromBytes(kind, body);
        return TreatmentHistoryWords.Of(read) ?? SurveyHistoryWords.Of(read) ?? MatchHistoryWords.Of(read) ?? ProgressHistoryWords.Of(read) ?? Of(read, kind, body, before, names);
    }

    private static (string What, string? Why, HistoryTarget? Touches) Of(
        RecordBody read, RecordKind kind, byte[] body, byte[]? before, IReadOnlyDictionary<Guid, string> names)
        => read switch
        {
            SettingsBody { First: true } opened => ($"Site opened: {opened.Settings.Name}.", null, new(HistoryPageName.Settings, "")),
            SettingsBody revised => ($"Settings revised: {Changed(body, before)}.", revised.Reason, new(HistoryPageName.Settings, "")),
            SettingsProposedBody proposed => ($"Settings proposed to the owner's representative: {Changed(body, before)}.", proposed.Reason, new(HistoryPageName.Settings, "")),
            SettingsDecidedBody decided => (Say($"The settings proposed in record {decided.Proposal} were {(decided.Approved ? "approved and are in force" : "refused")}."), decided.Comment, new(HistoryPageName.Settings, "")),
            AdjustmentBody one => (Say($"Adjustment {one.Adjustment.Revision} of the site grid adopted, from {one.ControlPoints.Count} control points."), one.Reason, new(HistoryPageName.SiteGrid, "")),
            RoleGrantedBody one => ($"{names.GetValueOrDefault(one.Account, "An account without a name")} is {RoleOf(one.Role)} from here on.", null, new(HistoryPageName.People, "")),
            RoleWithdrawnBody one => ($"The role of {names.GetValueOrDefault(one.Account, "an account without a name")} was withdrawn.", null, new(HistoryPageName.People, "")),
            BatchBody one => (BatchWords(one), null, null),
            BatchWithdrawnBody one => (Say($"Batch {one.WithdrawnBatch} was withdrawn."), one.Reason, new(HistoryPageName.Batch, Say($"{one.WithdrawnBatch}"))),
            SenderKeyMadeBody one => ($"A key was made for the sender {one.Sender} ({string.Join(", ", one.Barges)}).", null, new(HistoryPageName.Senders, "")),
            SenderKeyWithdrawnBody one => ($"The key {one.Key.ToString("D")[..8]}… of a sender was withdrawn.", one.Reason, new(HistoryPageName.Senders, "")),
            ClockCorrectedBody { Correction: var one } => (Say($"The clock of {one.Barge}{(one.Sender is null ? "" : $" ({one.Sender} alone)")} was put right by {-one.AheadSeconds:+0.###;-0.###;0} s, for times it showed from {one.From} to {one.Until}."), one.Reason, new(HistoryPageName.Senders, "")),
            GaugeRevisedBody { Gauge: var one } revised => (Say($"Gauge {one.Name} described from {one.ValidFrom} on: zero {one.ZeroLevelMetres:0.000} m, offset {one.OffsetToSiteMetres:0.000} m, largest gap {one.LargestGapMinutes:0.#} min."), revised.Reason, new(HistoryPageName.Calibrations, "")),
            GaugeCheckedBody { Check: var one } => (Say($"Gauge {one.Gauge} checked at {one.At}: water at {one.LevelMetres:0.000} m by {one.Method}."), null, new(HistoryPageName.Calibrations, "")),
            _ => Any(kind, body),
        };

    private static string BatchWords(BatchBody batch) => Say(
        $"{batch.RowsRecorded} of {batch.RowsRead} rows recorded from {batch.FileName}{(batch.Problems is { Count: > 0 } problems ? $"; {problems.Count} problems" : batch.LinesLeftOut.Count > 0 ? $"; {batch.LinesLeftOut.Count} lines left out" : "")}.");

    private static string RoleOf(string role) => Enum.TryParse(role, out Role known) ? RoleWords.Of(known) : role;

    /// <summary>Names of the parts of the settings that differ.</summary>
    private static string Changed(byte[] body, byte[]? before)
    {
        if (before is null) return "nothing is known of those before";
        using JsonDocument now = JsonDocument.Parse(body), then = JsonDocument.Parse(before);
        JsonElement settings = now.RootElement.GetProperty("settings"), earlier = then.RootElement.GetProperty("settings");
        string[] differing = [.. settings.EnumerateObject()
            .Where(member => !earlier.TryGetProperty(member.Name, out JsonElement was) || was.GetRawText() != member.Value.GetRawText())
            .Select(member => NameWords.Of(member.Name))
            .Concat(earlier.EnumerateObject().Where(member => !settings.TryGetProperty(member.Name, out _)).Select(member => NameWords.Of(member.Name)))];
        return differing.Length == 0 ? "nothing differs" : string.Join(", ", differing);
    }

    private static (string, string?, HistoryTarget?) Any(RecordKind kind, byte[] body)
    {
        using JsonDocument document = JsonDocument.Parse(body);
        List<(string Name, string Value)> members = [];
        Gather(document.RootElement, members, 0);
        string? why = members.FirstOrDefault(member => member.Name is "reason" or "because" or "why").Value;
        string? pile = members.FirstOrDefault(member => member.Name is "pile" or "pileNumber" or "number").Value;
        string? day = members.FirstOrDefault(member => member.Name is "workingDay").Value;
        string said = string.Join(", ", members.Where(member => member.Value != why).Take(MostMembers).Select(member => $"{NameWords.Of(member.Name)} {Short(member.Value)}"));
        string sentence = NameWords.Of(kind.ToString());
        return (
            $"{char.ToUpperInvariant(sentence[0])}{sentence[1..]}{(said.Length > 0 ? ": " + said : "")}.",
            why,
            pile is not null ? new HistoryTarget(HistoryPageName.Pile, pile) : day is not null ? new HistoryTarget(HistoryPageName.Progress, day) : null);
    }

    /// <summary>Texts, numbers and yes-or-no of a body, from its own members to those of what it holds.</summary>
    private static void Gather(JsonElement element, List<(string Name, string Value)> members, int depth)
    {
        if (element.ValueKind is not JsonValueKind.Object || depth > 2) return;
        foreach (JsonProperty member in element.EnumerateObject())
        {
            if (member.Value.ValueKind is JsonValueKind.String) members.Add((member.Name, member.Value.GetString()!));
            else if (member.Value.ValueKind is JsonValueKind.Number or JsonValueKind.True or JsonValueKind.False) members.Add((member.Name, member.Value.GetRawText()));
        }

        foreach (JsonProperty member in element.EnumerateObject()) Gather(member.Value, members, depth + 1);
    }

    private static string Short(string value) => value.Length <= MostCharacters ? value : value[..MostCharacters] + "…";

    /// <summary>A name in words: "SenderKeyMade" is "sender key made".</summary>
    private static string Say(FormattableString sentence) => sentence.ToString(CultureInfo.InvariantCulture);
}
