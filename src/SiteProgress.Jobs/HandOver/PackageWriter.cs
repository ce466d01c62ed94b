using System.Globalization;
using System.Security.Cryptography;
using System.Text.Json;
using NodaTime;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using SiteProgress.Exchange;
using SiteProgress.Exchange.HandOver;
using SiteProgress.Jobs.Operation;

namespace SiteProgress.Jobs.HandOver;

/// <summary>Writes what goes into a hand-over package, in an order of its own, to a file that is gone when it is closed.</summary>
internal sealed class PackageWriter
{
    private readonly HashedZip _zip;
    private readonly DerivedSite _site;
    private readonly IReadOnlyList<RecordEntry> _records;
    private readonly IReadOnlyDictionary<string, string> _names;

    private PackageWriter(HashedZip zip, DerivedSite site, IReadOnlyList<RecordEntry> records, IReadOnlyDictionary<string, string> names)
        => (_zip, _site, _records, _names) = (zip, site, records, names);

    public static async Task<HandOverPackage> WriteAsync(
        DerivedSite site, IReadOnlyList<RecordEntry> records, IReadOnlyDictionary<string, string> names, Func<Guid, Stream> open, CancellationToken cancellation)
    {
        FileStream file = PrivateFile.OpenPassing();
        try
        {
            RecordEntry last = records[^1];
            await using (HashedZip zip = new(file, Stamp(last.RecordedAt))) await new PackageWriter(zip, site, records, names).WriteAllAsync(open, cancellation);
            file.Position = 0;
            string sha256 = Convert.ToHexStringLower(await SHA256.HashDataAsync(file, cancellation));
            file.Position = 0;
            string name = string.Create(CultureInfo.InvariantCulture, $"{site.History.Settings!.Code}-hand-over-record-{last.Sequence}.zip");
            return new HandOverPackage(name, file, file.Length, sha256, last.Sequence, last.Hash.ToString());
        }
        catch
        {
            await file.DisposeAsync();
            throw;
        }
    }

    private async Task WriteAllAsync(Func<Guid, Stream> open, CancellationToken cancellation)
    {
        await _zip.AddTextAsync("read-me.txt", PackageText.Of(_site, _records[^1]));
        await _zip.AddAsync("check.py", stream => CopyAsync(typeof(PackageWriter).Assembly.GetManifestResourceStream("check.py")!, stream, cancellation));
        await _zip.AddTextAsync("settings.json", JsonSerializer.Serialize(_site.History.Settings, RecordJson.Options));
        await _zip.AddAsync("records/records.jsonl", WriteRecordsAsync);
        await TablesAsync();
        await _zip.AddAsync("as-built.geojson", Buffered(stream => AsBuiltFeatures.Write(stream, _site)));
        await _zip.AddAsync("as-built.dxf", Buffered(stream => AsBuiltDrawing.Write(stream, _site)));
        await SheetsAsync(cancellation);
        await FilesAsync(open, cancellation);
        await _zip.AddSumsAsync();
    }

    private async Task TablesAsync()
    {
        EvidenceTables evidence = new(_site, _names);
        await TableAsync("as-built", table => AsBuiltTable.Write(table, _site, _names));
        await TableAsync("checks", evidence.Checks);
        await TableAsync("installations", evidence.Installations);
        await TableAsync("non-conformances", evidence.NonConformances);
        await TableAsync("lots", evidence.Lots);
        await TableAsync("hold-points", evidence.HoldPoints);
        await TableAsync("daily-reports", evidence.DailyReports);
        await TableAsync("hand-overs", evidence.HandOvers);
        await TableAsync("people", People);
    }

    private Task TableAsync(string name, Action<TableWriter> write) => _zip.AddAsync($"tables/{name}.csv", async stream =>
    {
        await using StreamWriter text = new(stream, TableWriter.Encoding, leaveOpen: true);
        write(new TableWriter(text));
    });

    private void People(TableWriter table)
    {
        table.Header("In the records", "Name");
        foreach ((string recorder, string name) in _names.OrderBy(one => one.Key, StringComparer.Ordinal)) table.Text(recorder).Text(name).EndRow();
    }

    private async Task SheetsAsync(CancellationToken cancellation)
    {
        foreach (DerivedPile pile in _site.Piles)
        {
            cancellation.ThrowIfCancellationRequested();
            string number = pile.Judgement.Pile.Number;
            // What was signed stands under the number it was signed by.
            Sheet? made = pile.Treatment.Acceptance is { } signed ? _site.Treated.SheetAt(number, signed.Sequence) : _site.Treated.SheetOf(number);
            if (made is { } sheet)
                await _zip.AddAsync($"sheets/{Uri.EscapeDataString(number)}.txt", stream => stream.WriteAsync(sheet.CanonicalBytes()).AsTask());
        }
    }

    private async Task FilesAsync(Func<Guid, Stream> open, CancellationToken cancellation)
    {
        PackageFile[] files = [.. _records.Select(PackageFile.Of).OfType<PackageFile>()];
        await TableAsync("files", table =>
        {
            table.Header("Record", "File", "Name as sent", "SHA-256");
            foreach (PackageFile file in files) table.Whole(file.Record).Text(file.Path).Text(file.FileName).Text(file.Sha256).EndRow();
        });
        foreach (PackageFile file in files) await _zip.AddAsync(file.Path, stream => CopyAsync(open(file.Upload), stream, cancellation));
    }

    private async Task WriteRecordsAsync(Stream output)
    {
        using MemoryStream piece = new();
        foreach (RecordEntry record in _records)
        {
            RecordLines.Write(piece, record);
            if (piece.Length < 1 << 16) continue;
            await output.WriteAsync(piece.GetBuffer().AsMemory(0, (int)piece.Length));
            piece.SetLength(0);
        }

        await output.WriteAsync(piece.GetBuffer().AsMemory(0, (int)piece.Length));
    }

    /// <summary>For writers that move about in what they write, or close it.</summary>
    private static Func<Stream, Task> Buffered(Action<Stream> write) => async output =>
    {
        using MemoryStream bytes = new();
        write(bytes);
        await output.WriteAsync(bytes.ToArray());
    };

    private static async Task CopyAsync(Stream from, Stream to, CancellationToken cancellation)
    {
        await using (from) await from.CopyToAsync(to, cancellation);
    }

    /// <summary>An archive has no times before 1980 and none between two seconds.</summary>
    private static DateTimeOffset Stamp(Instant at)
    {
        DateTimeOffset utc = at.ToDateTimeOffset();
        DateTimeOffset first = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);
        return utc < first ? first : utc;
    }
}
