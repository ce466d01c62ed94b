using NodaTime.Text;
using SiteProgress.Core.Piles;
using static SiteProgress.Core.Treatment.SheetFigures;

namespace SiteProgress.Core.Treatment;

/// <summary>Sheets of non-conformances and hold points: what a person sees who decides or signs.</summary>
public static class TreatmentSheets
{
    /// <summary>The sheet of a non-conformance.</summary>
    public static Sheet Of(NonConformance one)
    {
        ArgumentNullException.ThrowIfNull(one);
        List<SheetLine> lines = [new("raised because", one.Reason), new("due on", one.DueOn is { } due ? LocalDatePattern.Iso.Format(due) : "no day")];
        foreach (FindingNow finding in one.Findings) lines.Add(new($"{SheetFigures.Of(finding.Check)} of {finding.Account?.InWords() ?? finding.Pile}", finding.Now));
        if (one.Reopened is { } reopened) lines.Add(new("re-opened", reopened));
        if (one.Proposal is { } proposal)
        {
            lines.Add(new("proposed in record", Whole(proposal.Sequence)));
            lines.Add(new("disposition", SheetFigures.Of(proposal.Disposition)));
            lines.Add(new("because", proposal.Reason));
            lines.Add(new("designer's reference", proposal.DesignerReference ?? "none"));
            foreach (AdditionalPile pile in proposal.Additional) lines.Add(new($"additional pile {pile.Number}", $"replaces {pile.Replaces}, at {Metres(pile.XMetres)}, {Metres(pile.YMetres)} on the site grid"));
        }

        foreach (ReplacementPile pile in one.Replacements) lines.Add(new($"pile {pile.Number}", pile.Accepted ? "accepted" : "not accepted yet"));
        foreach (TreatmentStep step in one.Steps.Where(step => step.Kind == Records.RecordKind.EvidenceGiven)) lines.Add(new("evidence", $"{step.Reference}: {step.Text}"));
        lines.Add(new("last record", Whole(one.Steps[^1].Sequence)));
        return new Sheet($"Non-conformance {Whole(one.Number)}", lines);
    }

    /// <summary>The sheet of a hold point.</summary>
    /// <param name="point">The hold point.</param>
    /// <param name="treated">The piles it speaks of.</param>
    public static Sheet Of(HoldPoint point, TreatedSite treated)
    {
        ArgumentNullException.ThrowIfNull(point);
        ArgumentNullException.ThrowIfNull(treated);
        List<SheetLine> lines =
        [
            new("what", point.Name),
            new("clause", point.Clause),
            new("waits", Waits(point)),
        ];
        foreach (string number in point.Shown) lines.Add(new($"shown pile {number}", treated.InShort(number)));
        return new Sheet($"Hold point {Whole(point.Number)}", lines);
    }

    private static string Waits(HoldPoint point)
    {
        List<string> words = [];
        if (point.Waiting.Count > 0) words.Add("piles " + string.Join(", ", point.Waiting));
        else if (point.Zone is { } zone) words.Add(point.Shown.Count > 0 ? $"the other piles of zone {zone}" : $"the piles of zone {zone}");
        if (point.Barge is { } barge) words.Add($"{barge} with its anchors");
        return words.Count > 0 ? string.Join("; ", words) : "nothing named";
    }
}
