using System.Globalization;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Jobs.SiteGrid;

/// <summary>Reads points as people type and paste them.</summary>
public static class PointText
{
    private static readonly char[] Blanks = [' ', '\u00A0', '\u2009', '\u202F'];

    /// <summary>Reads one point from its two texts.</summary>
    /// <returns>The point, or what is wrong with which text.</returns>
    public static (RecordedPosition? Point, string? Problem) Read(Frame frame, string first, string second)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        (double? one, string? problem) = frame == Frame.Geographic ? Angle(DegreesMinutesSeconds.ParseLatitude(WithPoint(first))) : Metres(first);
        (double? two, string? other) = frame == Frame.Geographic ? Angle(DegreesMinutesSeconds.ParseLongitude(WithPoint(second))) : Metres(second);
        return one is { } a && two is { } b
            ? (new RecordedPosition(frame, a, b), null)
            : (null, string.Join(" ", new[] { problem, other }.OfType<string>()));
    }

    /// <summary>Reads a pasted list: a point a line, with a name before it or not; blank lines and lines that begin with # are passed over.</summary>
    /// <param name="frame">Frame of the points.</param>
    /// <param name="text">The list.</param>
    /// <param name="mostLines">Lines read at most.</param>
    public static IReadOnlyList<PointLine> ReadList(Frame frame, string text, int mostLines)
    {
        ArgumentNullException.ThrowIfNull(text);
        List<PointLine> lines = [];
        int number = 0;
        foreach (string line in text.Split('\n'))
        {
            number++;
            string plain = line.Trim();
            if (plain.Length == 0 || plain[0] == '#') continue;
            if (lines.Count == mostLines)
            {
                lines.Add(new PointLine(number, null, null, $"The list is longer than {mostLines} points; what stands from here on was not read."));
                break;
            }

            lines.Add(ReadLine(frame, number, plain));
        }

        return lines;
    }

    /// <summary>Reads a standard deviation.</summary>
    /// <returns>Metres, or what is wrong with the text.</returns>
    public static (double? Metres, string? Problem) Deviation(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        (double? metres, string? problem) = Metres(text);
        if (text.Trim().Length == 0) return (null, "The standard deviation is missing; expected metres, such as 0.005.");
        return problem is not null || metres is > 0 and < 1 ? (metres, problem)
            : (null, $"\"{Short(text)}\" is not a standard deviation: expected metres above 0 and below 1, such as 0.005{(metres is >= 1 ? "; this looks like millimetres" : "")}.");
    }

    /// <summary>Reads a number of metres that may be left out.</summary>
    /// <returns>Metres, or what is wrong with the text.</returns>
    public static (double? Metres, string? Problem) MetresOr(string? text, double whenEmpty)
        => string.IsNullOrWhiteSpace(text) ? (whenEmpty, null) : Metres(text);

    private static PointLine ReadLine(Frame frame, int number, string line)
    {
        string[] cells = Cells(frame, line);
        if (cells.Length is not (2 or 3))
        {
            string parted = frame == Frame.Geographic ? "comma, semicolon or tab" : "comma, semicolon, tab or blanks";
            return new PointLine(number, null, null, $"Expected two coordinates, or a name and two coordinates, parted by {parted}; found {cells.Length} {(cells.Length == 1 ? "cell" : "cells")}.");
        }

        (RecordedPosition? point, string? problem) = Read(frame, cells[^2], cells[^1]);
        return new PointLine(number, cells.Length == 3 ? cells[0].Trim() : null, point, problem);
    }

    private static string[] Cells(Frame frame, string line)
    {
        foreach (char delimiter in new[] { '\t', ';' })
        {
            if (line.Contains(delimiter, StringComparison.Ordinal)) return line.Split(delimiter, StringSplitOptions.TrimEntries);
        }

        if (line.Contains(',', StringComparison.Ordinal) && (line.Contains('.', StringComparison.Ordinal) || !line.Contains(' ', StringComparison.Ordinal) || frame == Frame.Geographic || line.Contains(", ", StringComparison.Ordinal)))
            return line.Split(',', StringSplitOptions.TrimEntries);
        string[] words = line.Split([' ', '\t'], StringSplitOptions.RemoveEmptyEntries);
        // Degrees, minutes and seconds hold blanks themselves, so only two plain decimals can be parted by one.
        return frame != Frame.Geographic || words.Length is 2 or 3 ? words : [line];
    }

    private static (double? Value, string? Problem) Metres(string text)
    {
        string plain = WithPoint(string.Concat(text.Split(Blanks))).Replace('\u2212', '-');
        return double.TryParse(plain, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value) && Math.Abs(value) < 1e9
            ? (value, null)
            : (null, text.Trim().Length == 0 ? "A coordinate is missing; expected metres." : $"\"{Short(text)}\" is not a number of metres.");
    }

    private static (double? Value, string? Problem) Angle(AngleResult angle) => (angle.Degrees, angle.Refusal);

    /// <summary>One decimal comma becomes a point; a text with both is left as it is and refused.</summary>
    private static string WithPoint(string text)
        => text.Count(letter => letter == ',') == 1 && !text.Contains('.', StringComparison.Ordinal) ? text.Replace(',', '.') : text;

    private static string Short(string text) => text.Trim() is { Length: > 40 } longer ? longer[..39] + "\u2026" : text.Trim();
}

/// <summary>One line of a pasted list.</summary>
/// <param name="Line">Line, from 1.</param>
/// <param name="Name">The name before the coordinates, where there is one.</param>
/// <param name="Point">The point; null when it cannot be read.</param>
/// <param name="Problem">Why not.</param>
public sealed record PointLine(int Line, string? Name, RecordedPosition? Point, string? Problem);
