using System.Globalization;
using NodaTime;
using Npgsql;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.SiteGrid;

/// <summary>An adopted adjustment with who adopted it.</summary>
/// <param name="Body">The adjustment and what it rests on.</param>
/// <param name="AdoptedAt">When.</param>
/// <param name="AdoptedBy">By whom, as a name.</param>
public sealed record AdoptedAdjustment(AdjustmentBody Body, Instant AdoptedAt, string AdoptedBy);

/// <summary>Reads the adopted adjustments of a site from its records.</summary>
internal static class SiteAdjustments
{
    /// <summary>All of them, in order of adoption.</summary>
    public static async Task<IReadOnlyList<AdoptedAdjustment>> ReadAsync(NpgsqlDataSource store, int site, CancellationToken cancellation)
    {
        List<(AdjustmentBody Body, Instant At, string By)> read = [];
        await using (NpgsqlCommand command = store.CreateCommand(
            "select body, recorded_at, recorded_by from record.site_record where site = $1 and kind = $2 order by sequence"))
        {
            command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
            command.Parameters.Add(new NpgsqlParameter<short> { TypedValue = (short)RecordKind.AdjustmentAdopted });
            await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
            while (await reader.ReadAsync(cancellation))
            {
                AdjustmentBody body = (AdjustmentBody)RecordJson.FromBytes(RecordKind.AdjustmentAdopted, reader.GetFieldValue<byte[]>(0));
                read.Add((body, Instant.FromDateTimeUtc(reader.GetDateTime(1)), reader.GetString(2)));
            }
        }

        IReadOnlyDictionary<string, string> names = await RecordsIn.RecorderNames.ReadAsync(store, read.Select(one => one.By), cancellation);
        return read.Select(one => new AdoptedAdjustment(one.Body, one.At, names.GetValueOrDefault(one.By, one.By))).ToArray();
    }

    /// <summary>A projected CRS by its code, or by its name where it was pasted in.</summary>
    public static string Words(ProjectedCrs crs) => crs.EpsgCode == 0 ? crs.Name : string.Create(CultureInfo.InvariantCulture, $"EPSG:{crs.EpsgCode}");

    /// <summary>The ways between the frames by an adopted adjustment.</summary>
    /// <exception cref="InvalidDataException">The recorded CRS definition is refused; it was accepted when it was recorded.</exception>
    public static CoordinateService Service(AdjustmentBody adopted)
    {
        ProjectedCrsResult crs = ProjectedCrs.FromWkt(adopted.EpsgCode, adopted.CrsWkt);
        return crs.IsMade ? new CoordinateService(adopted.Adjustment, crs.Crs) : throw new InvalidDataException($"EPSG:{adopted.EpsgCode} is refused: {crs.Refusal}");
    }
}
