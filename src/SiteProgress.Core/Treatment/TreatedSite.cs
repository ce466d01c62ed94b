using SiteProgress.Core.Checks;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;

namespace SiteProgress.Core.Treatment;

/// <summary>What was decided about the piles of a site, held against how they are judged now.</summary>
public sealed class TreatedSite
{
    private readonly SiteSettings? _settings;
    private readonly Dictionary<string, PileJudgement> _judged = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, PileTreatment> _treated = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, List<NonConformance>> _byPile = new(StringComparer.OrdinalIgnoreCase);
    private readonly ILookup<string, long> _outsideDesign;
    private IReadOnlyDictionary<string, PileAcceptance> _acceptances = new Dictionary<string, PileAcceptance>();

    private readonly FindingsNow _standing;
    private Func<string, long, string> _numberAt = (number, _) => number;

    private TreatedSite(SiteSettings? settings, IEnumerable<PileJudgement> judged, IEnumerable<LocatedInstallation> located, IReadOnlyList<SandPeriod> periods)
    {
        _settings = settings;
        foreach (PileJudgement pile in judged) _judged[pile.Pile.Number] = pile;
        _standing = new FindingsNow(_judged, periods);
        _outsideDesign = located.Where(one => !_judged.ContainsKey(one.Recorded.PileNumber))
            .ToLookup(one => one.Recorded.PileNumber, one => one.Sequence, StringComparer.OrdinalIgnoreCase);
    }

    /// <summary>A site of which nothing is known.</summary>
    public static TreatedSite None { get; } = new(null, [], [], []);

    /// <summary>Non-conformances by number.</summary>
    public IReadOnlyList<NonConformance> NonConformances { get; private set; } = [];

    /// <summary>Lots by number.</summary>
    public IReadOnlyList<Lot> Lots { get; private set; } = [];

    /// <summary>Hold points by number.</summary>
    public IReadOnlyList<HoldPoint> HoldPoints { get; private set; } = [];

    /// <summary>Proposals for piles whose design was changed after they were built, in order.</summary>
    public IReadOnlyList<DesignChangeProposal> DesignProposals { get; private set; } = [];

    /// <summary>Holds what was decided against how the piles are judged.</summary>
    /// <param name="log">Records of treatment.</param>
    /// <param name="settings">Settings in force.</param>
    /// <param name="judged">The piles of the design as judged.</param>
    /// <param name="located">All installations, for piles that stand outside the design.</param>
    /// <param name="periods">Accounts of the sand from each measured stock to the next.</param>
    /// <param name="numberAt">The number that a pile had when the site's sequence stood at a record; null where no pile was renumbered.</param>
    public static TreatedSite Of(
        TreatmentLog log, SiteSettings settings, IReadOnlyCollection<PileJudgement> judged, IEnumerable<LocatedInstallation> located,
        IReadOnlyList<SandPeriod> periods, Func<string, long, string>? numberAt = null)
    {
        ArgumentNullException.ThrowIfNull(log);
        TreatedSite site = new(settings, judged, located, periods) { _acceptances = log.Acceptances, DesignProposals = log.DesignProposals };
        if (numberAt is not null) site._numberAt = numberAt;
        HoldPointFold[] holds = [.. log.HoldPoints.Values.Select(records => new HoldPointFold(records))];

        // An additional pile closes the non-conformance of the pile it replaces, and may itself be in one: those without
        // such piles are made first, so that whether a replacement is accepted is known.
        int[] order = [.. log.NonConformances.OrderByDescending(one => one.Key).Select(one => one.Key)];
        NonConformance[] made = Array.ConvertAll(order, number => new NonConformanceFold(log.NonConformances[number], site._standing, _ => false).Make());
        site.Gather(made);
        PileFold piles = new(log, site, holds);
        HashSet<string> replacements = new(log.Additional.Select(one => one.Pile.Number), StringComparer.OrdinalIgnoreCase);
        HashSet<string> accepted = new(replacements.Where(piles.IsAccepted), StringComparer.OrdinalIgnoreCase);
        site.Gather([.. order.Select((number, index) => made[index].Replacements.Count == 0
            ? made[index]
            : new NonConformanceFold(log.NonConformances[number], site._standing, accepted.Contains).Make())]);
        foreach (PileJudgement pile in judged) site._treated[pile.Pile.Number] = piles.Make(pile);
        site.HoldPoints = [.. holds.Select(hold => hold.Make())];
        site.Lots = [.. log.Lots.Values.Select(LotFold.Make)];
        return site;
    }

    /// <summary>The pile as judged; null where the design does not hold it.</summary>
    public PileJudgement? Judged(string pile) => _judged.GetValueOrDefault(pile);

    /// <summary>Where a pile stands after all that was decided; null where the design does not hold it.</summary>
    public PileTreatment? Find(string pile) => _treated.GetValueOrDefault(pile);

    /// <summary>The acceptance last given to a pile and not withdrawn, also where it no longer covers what stands; null without one.</summary>
    public PileAcceptance? LastAcceptanceOf(string pile) => _acceptances.GetValueOrDefault(pile);

    /// <summary>Non-conformances that a pile is in, by number.</summary>
    public IReadOnlyList<NonConformance> NonConformancesOf(string pile) => _byPile.GetValueOrDefault(pile) ?? [];

    /// <summary>The sheet of a pile; null where nothing stands for it.</summary>
    public Sheet? SheetOf(string pile)
        => _judged.GetValueOrDefault(pile) is { Standing.Count: > 0 } judged ? SheetOf(judged, Find(pile)?.BuiltWhileHeld) : null;

    /// <summary>The sheet of a pile under the numbers that held when a record was made; null where nothing stands for it.</summary>
    /// <param name="pile">The number it has now.</param>
    /// <param name="sequence">Sequence of the record, as of an acceptance.</param>
    public Sheet? SheetAt(string pile, long sequence)
        => _judged.GetValueOrDefault(pile) is { Standing.Count: > 0 } judged ? SheetAt(judged, Find(pile)?.BuiltWhileHeld, sequence) : null;

    /// <summary>Findings that no open or closed non-conformance covers.</summary>
    public IEnumerable<FindingShown> FreeFindings(string pile)
        => _judged.GetValueOrDefault(pile) is not { } judged ? [] : judged.Checks
            .Where(check => check.Verdict == Verdict.NotMet && !IsCovered(pile, check.Check, openToo: true))
            .Select(check => new FindingShown(judged.Pile.Number, check.Check, FindingLine.Of(judged, check.Check)));

    /// <summary>Sand accounts over the site's limit that no open or closed non-conformance covers, in order of time.</summary>
    public IEnumerable<FindingShown> FreeAccountFindings()
        => _standing.OfAccounts().Where(finding => NonConformanceOf(finding.Account!) is null);

    /// <summary>The non-conformance last raised of a sand account; null without one.</summary>
    public NonConformance? NonConformanceOf(SandAccountName account)
    {
        ArgumentNullException.ThrowIfNull(account);
        return NonConformances.LastOrDefault(one => one.Findings.Any(finding => finding.Account == account));
    }

    /// <summary>Whether a pile can be accepted.</summary>
    public PileReadiness ReadinessOf(string pile)
    {
        if (_judged.GetValueOrDefault(pile) is not { } judged || Find(pile) is not { } treated) return new(Readiness.NotReady, "It is not in the design.");
        if (judged.Standing.Count == 0) return new(Readiness.NotReady, "Nothing stands for it.");
        if (treated.State is PileState.Accepted or PileState.AcceptedWithConcession) return new(Readiness.Accepted, "It is accepted already.");
        if (treated.State == PileState.Cancelled) return new(Readiness.NotReady, "It is taken out of the design.");
        if (NonConformancesOf(pile).FirstOrDefault(one => one.IsOpen()) is { } open) return new(Readiness.NotReady, $"Non-conformance {SheetFigures.Whole(open.Number)} is open.");
        CheckResult? notMet = judged.Checks.FirstOrDefault(check => check.Verdict == Verdict.NotMet && !IsCovered(pile, check.Check, openToo: false));
        if (notMet is not null) return new(Readiness.NotReady, $"Finding: {SheetFigures.Of(notMet.Check)} is not met.");
        if (treated.HeldBy is { } held) return new(Readiness.NotReady, $"Hold point {SheetFigures.Whole(held)} is not released.");
        if (judged.OpenDesignChange is { } change) return new(Readiness.NotReady, $"Its design was changed after it was built, and nothing is decided: {change}.");
        CheckResult? missing = judged.Checks.FirstOrDefault(check => check is { Required: true, Verdict: Verdict.NotJudged });
        return missing is null
            ? new(Readiness.Ready, "")
            : new(Readiness.OneByOne, $"Required check not judged: {SheetFigures.Of(missing.Check)}. {missing.Reason}");
    }

    /// <summary>True when nothing would be left open for a pile once this non-conformance is closed as it is proposed.</summary>
    /// <param name="pile">Pile number.</param>
    /// <param name="number">Number of the non-conformance.</param>
    public bool WouldBeReady(string pile, int number)
        => _judged.GetValueOrDefault(pile) is { Standing.Count: > 0 } judged
            && judged.OpenDesignChange is null
            && Find(pile) is { HeldBy: null }
            && NonConformancesOf(pile).All(one => one.Number == number || !one.IsOpen())
            && judged.Checks.All(check => check.Verdict switch
            {
                Verdict.NotMet => IsCovered(pile, check.Check, openToo: true),
                Verdict.NotJudged => !check.Required,
                _ => true,
            });

    /// <summary>A pile in one line: state, and its checks that are not met or not judged.</summary>
    internal string InShort(string number)
    {
        if (_judged.GetValueOrDefault(number) is not { } pile)
        {
            return _outsideDesign[number].Any() ? $"outside the design, recorded in {SheetFigures.Records(_outsideDesign[number])}" : "not on the record";
        }

        if (pile.Standing.Count == 0) return "nothing stands for it";
        string[] open = [.. pile.Checks.Where(check => check.Verdict == Verdict.NotMet || check is { Required: true, Verdict: Verdict.NotJudged })
            .Select(check => $"{SheetFigures.Of(check.Check)} {SheetFigures.Of(check.Verdict)}")];
        string stands = $"stands on record {SheetFigures.Records(pile.Standing.Select(part => part.Installation.Sequence))}";
        return open.Length == 0 ? $"all required checks met; {stands}" : $"{string.Join(", ", open)}; {stands}";
    }

    internal Sheet SheetOf(PileJudgement judged, int? builtWhileHeld)
        => PileSheet.Of(_settings!, judged, NonConformancesOf(judged.Pile.Number), builtWhileHeld);

    /// <summary>True where what was signed in a record is what stands, under the numbers of that time.</summary>
    internal bool IsAsSigned(PileJudgement judged, int? builtWhileHeld, PileAcceptance acceptance)
        => SheetAt(judged, builtWhileHeld, acceptance.Sequence).Hash == acceptance.Sheet;

    private Sheet SheetAt(PileJudgement judged, int? builtWhileHeld, long sequence)
        => PileSheet.Of(_settings!, judged, NonConformancesOf(judged.Pile.Number), builtWhileHeld, number => _numberAt(number, sequence));

    /// <summary>True when a non-conformance speaks of the finding, an open one counting only where asked.</summary>
    internal bool IsCovered(string pile, CheckName check, bool openToo)
        => NonConformancesOf(pile).Any(one => (openToo || !one.IsOpen())
            && one.Findings.Any(finding => finding.Check == check && string.Equals(finding.Pile, pile, StringComparison.OrdinalIgnoreCase)));

    private void Gather(NonConformance[] made)
    {
        NonConformances = [.. made.OrderBy(one => one.Number)];
        _byPile.Clear();
        foreach (NonConformance one in NonConformances)
        {
            foreach (string pile in one.Piles())
            {
                if (!_byPile.TryGetValue(pile, out List<NonConformance>? list)) _byPile[pile] = list = [];
                list.Add(one);
            }
        }
    }
}
