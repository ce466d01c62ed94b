using System.Text;
using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.Installations;
using SiteProgress.Exchange.PileSchedules;

namespace SiteProgress.Exchange.Tests;

/// <summary>What the tests read with: an invented site, and the two headers most files have.</summary>
internal static class Given
{
    public const string PlannedHeader = "Pile No,Zone,X [m],Y [m],Diameter [m],Top level [m],Tip level [m]";

    public const string InstallationHeader = "Record;Pile No;Barge;Casing;Start;End;X touch-down [m];Y touch-down [m];Tip level [m];Outcome";

    public static ReadingChoices Choices { get; } = new()
    {
        Zones = ["A", "B", "C"],
        Barges =
        [
            new Barge("Tern", [.. Enumerable.Range(1, 3).Select(number => new Casing(number, 0.8, 0.9, 20, 2.1 * number))], null),
            new Barge("Plover", [new Casing(1, 0.8, 0.9, 20, 2.1)], null),
        ],
        GridAxes = new GridAxes("X", "Y"),
        PileNumberCharacters = "A-Z0-9-",
        TimeZone = "Europe/Copenhagen",
        Now = Instant.FromUtc(2026, 6, 1, 12, 0),
    };

    public static Stream Bytes(string text) => new MemoryStream(Encoding.UTF8.GetBytes(text));

    public static TableReading<AsPlanned> Planned(string text, ReadingChoices? choices = null)
        => PlannedPileReader.Read(Bytes(text), choices ?? Choices, TestContext.Current.CancellationToken);

    public static TableReading<AsPlanned> PlannedRows(params string[] rows)
        => Planned(string.Join('\n', rows.Prepend(PlannedHeader)) + "\n");

    public static TableReading<Installation> Built(string text, ReadingChoices? choices = null)
        => InstallationReader.Read(Bytes(text), choices ?? Choices, TestContext.Current.CancellationToken);

    public static TableReading<Installation> BuiltRows(params string[] rows)
        => Built(string.Join('\n', rows.Prepend(InstallationHeader)) + "\n");

    /// <summary>One installation with these start and end cells.</summary>
    public static TableReading<Installation> BuiltAt(string start, string end, ReadingChoices? choices = null)
        => Built($"{InstallationHeader}\nR1;A-0001;Tern;1;{start};{end};1,5;2,5;-28,1;complete\n", choices);

    /// <summary>The one problem of a reading that has exactly one.</summary>
    public static ImportProblem TheProblem<T>(this TableReading<T> reading)
    {
        reading.ProblemCount.ShouldBe(1, string.Join(Environment.NewLine, reading.Problems.Select(problem => problem.Sentence)));
        return reading.Problems[0];
    }

    /// <summary>Asserts that nothing stands in the way, showing what does.</summary>
    public static TableReading<T> WithoutProblems<T>(this TableReading<T> reading)
    {
        reading.Problems.Select(problem => problem.Sentence).ShouldBeEmpty();
        return reading;
    }
}
