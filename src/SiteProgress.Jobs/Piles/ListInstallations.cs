using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Storage;
using SiteProgress.Storage.Derived;

namespace SiteProgress.Jobs.Piles;

/// <summary>The recorded installations of a site, those on no planned pile too.</summary>
public sealed class ListInstallations(IDbContextFactory<SiteProgressDb> contexts)
{
    /// <summary>Most lines in one piece.</summary>
    public static readonly int MostLines = 1000;

    /// <summary>Which installations a list holds.</summary>
    public enum Which
    {
        /// <summary>All that count.</summary>
        All,

        /// <summary>Those whose match a person has to decide.</summary>
        Waiting,

        /// <summary>Trial piles, outside the design.</summary>
        Trial,

        /// <summary>Those a planned pile stands on.</summary>
        Standing,

        /// <summary>Those that repeat another record.</summary>
        Repeated,
    }

    /// <summary>A piece of the list.</summary>
    /// <param name="Total">Installations the filter leaves.</param>
    /// <param name="Installations">The lines of this piece.</param>
    /// <param name="LevelDatum">Datum of all levels.</param>
    /// <param name="TimeZone">Time zone of the site.</param>
    public sealed record Page(int Total, IReadOnlyList<InstallationLine> Installations, string LevelDatum, string TimeZone);

    /// <summary>Filter of the list.</summary>
    public sealed record Filter
    {
        /// <summary>Which installations.</summary>
        public Which Show { get; init; }

        /// <summary>Pile number as recorded or as adopted.</summary>
        public string? Number { get; init; }

        /// <summary>Barge.</summary>
        public string? Barge { get; init; }

        /// <summary>Working day of the end.</summary>
        public LocalDate? Day { get; init; }

        /// <summary>Sequence of a batch.</summary>
        public long? Batch { get; init; }
    }

    /// <summary>Reads a piece of the list, in order of time.</summary>
    [Needs(Right.See)]
    public async Task<Page> RunAsync(Permit permit, Filter filter, int skip, int take, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        await using SiteProgressDb db = await contexts.CreateDbContextAsync(cancellation);
        IQueryable<InstallationRow> rows = Where(db.Installations.AsNoTracking().Where(row => row.Site == permit.Site), filter);
        string? text = await db.SiteStates.Where(row => row.Site == permit.Site).Select(row => row.Settings).FirstOrDefaultAsync(cancellation);
        SiteSettings? settings = text is null ? null : JsonSerializer.Deserialize<SiteSettings>(text, RecordJson.Options);
        int total = await rows.CountAsync(cancellation);
        List<InstallationLine> lines = await rows
            .OrderBy(row => row.StartedAt == null).ThenBy(row => row.StartedAt).ThenBy(row => row.Sequence)
            .Skip(Math.Max(0, skip)).Take(Math.Clamp(take, 1, MostLines))
            .Select(row => new InstallationLine
            {
                Sequence = row.Sequence,
                Batch = row.Batch,
                Line = row.Line,
                RecordId = row.RecordId,
                RecordedNumber = row.RecordedNumber,
                Match = (MatchOutcome)row.Match,
                Adopted = row.Adopted,
                Nearest = row.Nearest,
                DistanceToNamedMetres = row.DistanceToNamed,
                DistanceToNearestMetres = row.DistanceToNearest,
                SameAs = row.SameAs,
                WaitsForDecision = row.WaitsForDecision,
                Stands = row.Stands,
                Barge = row.Barge,
                Casing = row.Casing,
                SetUp = row.SetUp,
                StartedAt = row.StartedAt,
                EndedAt = row.EndedAt,
                WorkingDay = row.WorkingDay,
                Shift = row.Shift,
                XMetres = row.DeepestX ?? row.TouchDownX,
                YMetres = row.DeepestY ?? row.TouchDownY,
                LatitudeDegrees = row.Latitude,
                LongitudeDegrees = row.Longitude,
                TopLevelMetres = row.Top,
                TipLevelMetres = row.Tip,
                SandInCasingCubicMetres = row.SandInCasing,
                Outcome = (Outcome)row.Outcome,
                Remark = row.Remark,
            })
            .ToListAsync(cancellation);
        return new Page(total, lines, settings?.LevelDatum.Name ?? "", settings?.TimeZone ?? "UTC");
    }

    private static IQueryable<InstallationRow> Where(IQueryable<InstallationRow> rows, Filter filter)
    {
        rows = filter.Show switch
        {
            Which.Waiting => rows.Where(row => row.WaitsForDecision),
            Which.Trial => rows.Where(row => row.Match == (short)MatchOutcome.Trial),
            Which.Standing => rows.Where(row => row.Stands),
            Which.Repeated => rows.Where(row => row.Match == (short)MatchOutcome.DuplicateRecord || row.Match == (short)MatchOutcome.IdentifierReused),
            _ => rows,
        };
        if (!string.IsNullOrWhiteSpace(filter.Number))
        {
            string number = filter.Number.Trim();
            rows = rows.Where(row => row.RecordedNumber == number || row.Adopted == number);
        }

        if (filter.Barge is { } barge) rows = rows.Where(row => row.Barge == barge);
        if (filter.Batch is { } batch) rows = rows.Where(row => row.Batch == batch);
        if (filter.Day is { } day)
        {
            DateOnly on = day.ToDateOnly();
            rows = rows.Where(row => row.WorkingDay == on);
        }

        return rows;
    }
}
