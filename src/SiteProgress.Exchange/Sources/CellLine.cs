using System.Text;

namespace SiteProgress.Exchange.Sources;

/// <summary>Writes cells as one line of a table that a reader of this project reads.</summary>
internal static class CellLine
{
    /// <summary>Appends a line. A line break within a cell becomes a blank, so that each line stays one.</summary>
    public static void Append(StringBuilder table, IEnumerable<string?> cells)
        => table.AppendJoin(',', cells.Select(cell => $"\"{cell?.Replace("\"", "\"\"", StringComparison.Ordinal).ReplaceLineEndings(" ")}\"")).Append('\n');
}
