using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Piles;
using SiteProgress.Jobs.Treatment;

namespace SiteProgress.Jobs.Demo;

/// <summary>
/// Brings the invented site to a state that people of it would have: a non-conformance in each stage, a lot accepted and one
/// submitted, a hold point released and one that waits. Every step goes through the job a person would use, by their account.
/// </summary>
[WithoutPermit("A command of the operator at the machine, on a store it has just filled.")]
public sealed class LoadDemoTreatment(
    Gate gate,
    RaiseNonConformance raise,
    ProposeDisposition propose,
    DecideDisposition decide,
    AddToNonConformance add,
    VerifyClosure verify,
    ReadNonConformances readOnes,
    ReadFreeFindings findings,
    SubmitLot submitLot,
    AcceptPiles accept,
    ReadLots readLots,
    KeepHoldPoints holdPoints,
    ReadHoldPoints readHoldPoints,
    ListPiles list)
{
    private const double HalfASpacing = 1.05;
    private const int FindingsUsed = 9;
    private static readonly LocalDate Soon = new(2026, 6, 12);
    private Dictionary<Role, Guid> _people = [];
    private string _site = "";

    /// <summary>Loads it.</summary>
    /// <param name="siteCode">Code of the invented site.</param>
    /// <param name="people">An account for every role.</param>
    /// <param name="say">Is told each step.</param>
    /// <param name="cancellation">Stops the work; what was recorded by then stays.</param>
    /// <returns>Null, or why it stopped.</returns>
    public async Task<string?> RunAsync(string siteCode, IReadOnlyDictionary<Role, Guid> people, Action<string> say, CancellationToken cancellation)
    {
        (_site, _people) = (siteCode, new Dictionary<Role, Guid>(people));
        Permit surveyor = await PermitAsync(Role.Surveyor, cancellation);
        IReadOnlyList<FindingName> off = await BeyondTheLimitAsync(surveyor, cancellation);
        if (off.Count < FindingsUsed) return $"The invented site has only {off.Count} findings of position; its treatment needs {FindingsUsed}.";
        await NonConformancesAsync([.. off.Skip(1)], cancellation);
        say("treatment: a non-conformance in each stage");
        await AdditionalPileAsync(surveyor, off[0], cancellation);
        say("treatment: one additional pile ordered");
        await LotsAsync(surveyor, cancellation);
        say("treatment: one lot accepted, one submitted");
        await HoldPointsAsync(surveyor, cancellation);
        say("treatment: one hold point released, one waits");
        return null;
    }

    private async Task<IReadOnlyList<FindingName>> BeyondTheLimitAsync(Permit permit, CancellationToken cancellation)
    {
        ReadFreeFindings.Answer free = await findings.RunAsync(permit, ReadFreeFindings.Filter.All, cancellation);
        return [.. free.Findings.Where(finding => finding.Check == CheckName.Position).Select(finding => new FindingName(finding.Pile, finding.Check)).TakeLast(FindingsUsed)];
    }

    private async Task NonConformancesAsync(IReadOnlyList<FindingName> off, CancellationToken cancellation)
    {
        await RaiseAsync([off[0]], "Casing beyond the radial limit; cause not known yet.", Soon, cancellation);
        int proposed = await RaiseAsync([off[1], off[2]], "Casing beyond the radial limit in the same row.", Soon.PlusDays(240), cancellation);
        await ProposeAsync(proposed, Disposition.UseAsIs, "Neighbours stand as designed, no gap opens.", "SH-D-014", cancellation);
        int returned = await RaiseAsync([off[3]], "Casing beyond the radial limit.", Soon, cancellation);
        await ProposeAsync(returned, Disposition.UseAsIs, "Small overrun.", "SH-D-015", cancellation);
        await DecideAsync(returned, false, "The designer's note does not cover this pile.", cancellation);
        int again = await RaiseAsync([off[4]], "Casing beyond the radial limit, a gap opens to the next row.", Soon.PlusDays(240), cancellation);
        await ProposeAsync(again, Disposition.InstallAgain, "The barge still lies within reach.", null, cancellation);
        await DecideAsync(again, true, "Agreed.", cancellation);
        int repaired = await RaiseAsync([off[5]], "Casing beyond the radial limit at the edge of the zone.", Soon.PlusDays(240), cancellation);
        await ProposeAsync(repaired, Disposition.RepairInPlace, "The gap is filled from the neighbouring casing.", null, cancellation);
        await DecideAsync(repaired, true, "With a sounding of the filled gap.", cancellation);
        Permit surveyor = await PermitAsync(Role.Surveyor, cancellation);
        Check(await add.GiveEvidenceAsync(surveyor, repaired, "Sounding SH-S-031 (invented)", "The gap is closed over the whole depth.", cancellation));
        int closed = await RaiseAsync([off[6]], "Casing beyond the radial limit.", Soon, cancellation);
        await ProposeAsync(closed, Disposition.UseAsIs, "Within what the designer's check allows.", "SH-D-011", cancellation);
        await DecideAsync(closed, true, "Accepted on SH-D-011.", cancellation);
        int verified = await RaiseAsync([off[7]], "Casing beyond the radial limit.", Soon, cancellation);
        await ProposeAsync(verified, Disposition.RepairInPlace, "Sand is placed beside it.", null, cancellation);
        await DecideAsync(verified, true, "Agreed.", cancellation);
        Check(await add.GiveEvidenceAsync(surveyor, verified, "Survey SH-V-007 (invented)", "Placed as drawn.", cancellation));
        Permit owner = await PermitAsync(Role.OwnersRepresentative, cancellation);
        Check(await verify.RunAsync(owner, verified, true, "Seen on the survey.", await SeenAsync(owner, verified, cancellation), cancellation));
    }

    /// <summary>An additional pile between those around the one that is off, ordered and not built yet: the original waits for it.</summary>
    private async Task AdditionalPileAsync(Permit surveyor, FindingName off, CancellationToken cancellation)
    {
        PileLine pile = (await list.LinesAsync(surveyor, PileFilter.All with { Number = off.Pile }, PileOrder.Number, descending: false, 0, 10, cancellation)).Single(line => line.Number == off.Pile);
        int number = await RaiseAsync([off], "Casing beyond the radial limit after the barge had left; it cannot be built again in its place.", Soon.PlusDays(240), cancellation);
        AdditionalPile additional = new($"{off.Pile}-R", off.Pile, pile.DesignXMetres + HalfASpacing, pile.DesignYMetres + HalfASpacing);
        Check(await propose.RunAsync(
            surveyor, number, new(Disposition.AdditionalPile, "An additional pile between the four around it closes the gap.", "SH-D-019", [additional]), await SeenAsync(surveyor, number, cancellation), cancellation));
        await DecideAsync(number, true, "Agreed; the original closes when the additional pile is accepted.", cancellation);
    }

    private async Task LotsAsync(Permit surveyor, CancellationToken cancellation)
    {
        ListPiles.Choices? choices = await list.ChoicesAsync(surveyor, PileFilter.All with { Zones = ["A"] }, cancellation);
        LocalDate[] days = [.. choices?.Days.Reverse().Take(2) ?? []];
        if (days.Length < 2) return;
        int first = await SubmitAsync(surveyor, days[0], "First working day of zone A.", cancellation);
        Permit owner = await PermitAsync(Role.OwnersRepresentative, cancellation);
        ReadLots.One lot = (await readLots.OneAsync(owner, first, cancellation))!;
        Check(await accept.LotAsync(owner, first, "Soundings follow with the zone.", lot.Hash, cancellation));
        await SubmitAsync(surveyor, days[1], "Second working day of zone A.", cancellation);
    }

    private async Task<int> SubmitAsync(Permit surveyor, LocalDate day, string note, CancellationToken cancellation)
    {
        PileSelection selection = new($"zone=A&day={NodaTime.Text.LocalDatePattern.Iso.Format(day)}", PileFilter.All with { Zones = ["A"], Day = day });
        ReadLots.Selected selected = (await readLots.SelectedAsync(surveyor, selection, cancellation))!;
        return Check(await submitLot.RunAsync(surveyor, selection, note, selected.Hash!, cancellation));
    }

    private async Task HoldPointsAsync(Permit surveyor, CancellationToken cancellation)
    {
        Permit owner = await PermitAsync(Role.OwnersRepresentative, cancellation);
        int trial = Check(await holdPoints.SetAsync(
            owner, new(HoldPointKind.TrialPiles, "Trial piles before zone A", "SH-02, clause 6.1 (invented)", ["T-01", "T-02"], [], "A", null), cancellation));
        ReadHoldPoints.One shown = (await readHoldPoints.RunAsync(owner, cancellation)).All.Single(one => one.Point.Number == trial);
        Check(await holdPoints.ReleaseAsync(owner, trial, "Diameters as designed.", shown.Hash, cancellation));
        IReadOnlyList<PileLine> left = await list.LinesAsync(
            surveyor, PileFilter.All with { Zones = ["C"], States = [PileState.Outstanding] }, PileOrder.Number, descending: false, 0, 20, cancellation);
        if (left.Count == 0) return;
        Check(await holdPoints.SetAsync(
            owner, new(HoldPointKind.OfTheSite, "Sounding of the seabed before the last rows of zone C", "Owner's letter SH-L-044 (invented)", [], [.. left.Select(pile => pile.Number)], null, null), cancellation));
    }

    private async Task<int> RaiseAsync(IReadOnlyList<FindingName> findings, string reason, LocalDate dueOn, CancellationToken cancellation)
        => Check(await raise.RunAsync(await PermitAsync(Role.Surveyor, cancellation), findings, reason, dueOn, cancellation));

    private async Task ProposeAsync(int number, Disposition disposition, string reason, string? reference, CancellationToken cancellation)
    {
        Permit surveyor = await PermitAsync(Role.Surveyor, cancellation);
        Check(await propose.RunAsync(surveyor, number, new(disposition, reason, reference, null), await SeenAsync(surveyor, number, cancellation), cancellation));
    }

    private async Task DecideAsync(int number, bool approve, string comment, CancellationToken cancellation)
    {
        Permit owner = await PermitAsync(Role.OwnersRepresentative, cancellation);
        Check(await decide.RunAsync(owner, number, approve, comment, await SeenAsync(owner, number, cancellation), cancellation));
    }

    private async Task<string> SeenAsync(Permit permit, int number, CancellationToken cancellation) => (await readOnes.OneAsync(permit, number, cancellation))!.Hash;

    private async Task<Permit> PermitAsync(Role role, CancellationToken cancellation)
        => await gate.EnterAsync(_people[role], _site, cancellation) ?? throw new InvalidOperationException("The role was just granted.");

    private static int Check(TreatmentAnswer answer)
        => answer.Refusal is null ? answer.Number ?? 0 : throw new InvalidOperationException(answer.Refusal);
}
