using System.Globalization;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.Nmea;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.Installations;

/// <summary>Reads as-built installations from a text table.</summary>
public sealed class InstallationReader
{
    private static readonly (string Word, Outcome Value)[] Outcomes =
    [
        ("complete", Outcome.Complete), ("refused", Outcome.Refused), ("interrupted", Outcome.Interrupted),
        ("abandoned", Outcome.Abandoned), ("offsetbyinstruction", Outcome.OffsetByInstruction), ("trial", Outcome.Trial),
    ];

    private static readonly (string Word, FixType Value)[] Fixes =
    [
        ("rtkfixed", FixType.RtkFixed), ("rtkfloat", FixType.RtkFloat), ("differential", FixType.Differential),
        ("single", FixType.Autonomous), ("autonomous", FixType.Autonomous),
    ];

    private readonly InstallationLayout _layout;
    private readonly ReadingChoices _choices;
    private readonly string[] _bargeNames;
    private bool _northMissed;
    private bool _antennaTold;
    private readonly Dictionary<string, (long Line, Installation Value)> _byRecord = new(StringComparer.Ordinal);

    private InstallationReader(ReadingChoices choices)
    {
        _choices = choices;
        _layout = new InstallationLayout(choices.GridAxes);
        _bargeNames = [.. choices.Barges.Select(barge => barge.Name)];
    }

    /// <summary>
    /// Reads installations. What a record does not hold is null. A record said twice with the same content is counted once
    /// and warned of; the same identifier with other content is a problem on the later line.
    /// </summary>
    /// <param name="stream">The file.</param>
    /// <param name="choices">What to read with.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>Installations with positions in the frame of the file, instants, levels in metres above the site's datum, and every problem by line.</returns>
    /// <exception cref="OperationCanceledException">The reading was ended.</exception>
    public static TableReading<Installation> Read(Stream stream, ReadingChoices choices, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(choices);
        var reader = new InstallationReader(choices);
        return TableWalk<Installation>.Read(stream, choices, reader._layout, reader.ReadRow, cancellation);
    }

    private Installation? ReadRow(RowCells row)
    {
        var number = row.PileNumber(_layout.PileNumber);
        var barge = row.Known(_layout.Barge, _bargeNames, "a barge");
        var outcome = row.Word(_layout.Outcome, Outcomes, "one of complete, refused, interrupted, abandoned, offset by instruction, trial");
        row.Require(_layout.PileNumber, "a pile number");
        row.Require(_layout.Barge, $"a barge of this site: {string.Join(", ", _bargeNames)}");
        row.Require(_layout.Outcome, "how the attempt ended");
        var (heading, north) = Heading(row);
        var receiver = Receiver(row);
        var value = new Installation(
            row.Text(_layout.Record, 100),
            number ?? "",
            barge ?? "",
            Casing(row, barge),
            row.Text(_layout.SetUp, 100),
            row.Time(_layout.Start),
            row.Time(_layout.EndOfPenetration),
            row.Time(_layout.End),
            row.Position(_layout.TouchDown),
            row.Position(_layout.AtEnd),
            heading,
            north,
            row.Number(_layout.TopLevel),
            row.Number(_layout.TipLevel),
            row.Number(_layout.Sand),
            row.Number(_layout.Inclination),
            row.Number(_layout.StopRate),
            row.Word(_layout.Fix, Fixes, "one of RTK fixed, RTK float, differential, single") ?? receiver.Fix,
            row.Number(_layout.Uncertainty),
            outcome ?? Outcome.Complete,
            row.Remark(_layout.Remark, 2_000),
            Depths(row, receiver),
            row.Number(_layout.CorrectionAge) ?? receiver.CorrectionAgeSeconds,
            row.Number(_layout.Epoch));
        if (row.IsBad || IsSaidBefore(row, value))
            return null;

        WarnOfOrder(row, value);
        return value;
    }

    /// <summary>What the receiver's own sentence says; nothing where the row has none. What stands in a column of its own goes before it.</summary>
    private GgaSentence Receiver(RowCells row)
    {
        if (row.Text(_layout.Gga, 120) is not { } text)
            return default;
        if (GgaSentence.Read(text, out var sentence) is { } expected)
            row.Problem(_layout.Gga.Title, text, expected);
        else if (!_antennaTold)
        {
            _antennaTold = true;
            row.Warn(_layout.Gga.Title, text, "the position of the casing in columns of its own; a GGA sentence holds that of the antenna, and only its fix, correction age and height are taken");
        }

        return sentence;
    }

    private RecordedDepths? Depths(RowCells row, GgaSentence receiver)
    {
        (DepthBelow Below, Column Tip, Column Top)[] ways =
        [
            (DepthBelow.Water, _layout.TipBelowWater, _layout.TopBelowWater),
            (DepthBelow.Deck, _layout.TipBelowDeck, _layout.TopBelowDeck),
            (DepthBelow.Antenna, _layout.TipBelowAntenna, _layout.TopBelowAntenna),
        ];
        var filled = Array.FindAll(ways, way => !row.IsBlank(way.Tip) || !row.IsBlank(way.Top));
        if (filled.Length == 0)
            return null;
        if (filled.Length > 1)
        {
            row.Problem(filled[1].Tip.Title, "", $"depths below one surface; {filled[0].Tip.Title} or {filled[0].Top.Title} is filled too");
            return null;
        }

        return new RecordedDepths(
            filled[0].Below, row.Number(filled[0].Tip), row.Number(filled[0].Top), row.Number(_layout.Freeboard), row.Number(_layout.Draught),
            row.Number(_layout.ForeDraught), row.Number(_layout.AftDraught), row.Number(_layout.List), row.Number(_layout.Trim),
            row.Number(_layout.AntennaAtTip) ?? (filled[0].Below == DepthBelow.Antenna ? receiver.AntennaHeightMetres : null), row.Number(_layout.AntennaAtTop));
    }

    private int? Casing(RowCells row, string? barge)
    {
        var casing = row.Whole(_layout.Casing, 1, 99);
        if (casing is null || barge is null)
            return casing;
        var casings = _choices.Barges.First(known => known.Name == barge).Casings;
        if (casings.Count > 0 && casings.All(known => known.Number != casing))
        {
            var known = string.Join(", ", casings.Select(item => item.Number.ToString(CultureInfo.InvariantCulture)));
            row.Problem(_layout.Casing.Title, casing.Value.ToString(CultureInfo.InvariantCulture), $"a casing of {barge}: {known}");
        }

        return casing;
    }

    private (double? Degrees, North? North) Heading(RowCells row)
    {
        (Column Column, North? North)[] ways =
        [
            (_layout.HeadingGrid, North.CrsGrid), (_layout.HeadingTrue, North.TrueNorth),
            (_layout.HeadingSite, North.SiteGrid), (_layout.Heading, _choices.HeadingNorth),
        ];
        foreach (var (column, north) in ways)
        {
            if (!row.IsBlank(column))
                return (row.Number(column), north);
        }

        if (row.Text(_layout.Hdt, 120) is not { } text)
            return (null, null);
        if (HdtSentence.Read(text, out var degrees) is not { } expected)
            return (degrees, North.TrueNorth);
        row.Problem(_layout.Hdt.Title, text, expected);
        return (null, null);
    }

    private bool IsSaidBefore(RowCells row, Installation value)
    {
        if (value.RecordId is not { } record || _byRecord.TryAdd(record, (row.Line, value)))
            return false;
        var (line, earlier) = _byRecord[record];
        if (earlier == value)
            row.Warn(_layout.Record.Title, record, string.Create(CultureInfo.InvariantCulture, $"each record once; line {line} says the same, and it is counted once"));
        else
            row.Problem(_layout.Record.Title, record, string.Create(CultureInfo.InvariantCulture, $"each record once; line {line} has the same record with other content"));
        return true;
    }

    private void WarnOfOrder(RowCells row, Installation value)
    {
        if (value.EndOfPenetration < value.Start || value.End < value.EndOfPenetration || value.End < value.Start)
            row.Warn(_layout.End.Title, "", "start, end of penetration and end in this order");
        if (value.TipLevelMetres >= value.TopLevelMetres)
        {
            row.Warn(
                _layout.TipLevel.Title, value.TipLevelMetres.Value.ToString(CultureInfo.InvariantCulture),
                "a tip level below the top level; is it a depth?");
        }

        // Told once: what is wrong with the title of a column is wrong in every row.
        if (value.HeadingDegrees is not null && value.HeadingNorth is null && !_northMissed)
        {
            _northMissed = true;
            row.Warn(_layout.Heading.Title, "", "the north the heading is counted from, in the title: Heading grid, Heading true or Heading site");
        }
    }
}
