using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.AspNetCore.Server.Kestrel.Core.Features;
using Microsoft.AspNetCore.WebUtilities;
using Microsoft.Net.Http.Headers;
using SiteProgress.Jobs.RecordsIn;

namespace SiteProgress.Web.Shell;

/// <summary>
/// The file in a request, read as it arrives: neither the form nor the file is ever whole in memory here.
/// </summary>
/// <param name="FileName">Name as sent.</param>
/// <param name="Bytes">The bytes still to come.</param>
/// <param name="FormValue">The form's anti-forgery value, where one stood before the file.</param>
/// <param name="Note">What was written in the form's field "note" before the file.</param>
internal sealed record IncomingFile(string FileName, Stream Bytes, string? FormValue, string Note = "")
{
    private const int LongestBoundary = 100;
    private const int LongestFormValue = 4096;
    private const int MostPartsBeforeFile = 10;

    /// <summary>Name of the form's field that holds the anti-forgery value.</summary>
    public static string FormField => "__RequestVerificationToken";

    /// <summary>Lets a sender go that is slower than a site's limit, so that nobody keeps the server waiting for a file that never ends.</summary>
    public static void ExpectRate(HttpContext http, IntakeLimits limits)
    {
        if (http.Features.Get<IHttpMinRequestBodyDataRateFeature>() is { } rate)
            rate.MinDataRate = new MinDataRate(limits.LeastBytesPerSecond, TimeSpan.FromSeconds(limits.GraceSeconds));
    }

    /// <summary>True when the request holds a form with files.</summary>
    public static bool IsForm(HttpRequest request) => BoundaryOf(request) is not null;

    /// <summary>Reads a form up to its file.</summary>
    /// <returns>The file; null when the form holds none.</returns>
    /// <exception cref="IOException">The sender broke off, or what was sent is not a form.</exception>
    public static async Task<IncomingFile?> FromFormAsync(HttpRequest request, CancellationToken cancellation)
    {
        MultipartReader reader = new(BoundaryOf(request) ?? throw new IOException("The request holds no form."), request.Body);
        string? formValue = null;
        string note = "";
        try
        {
            for (int part = 0; part < MostPartsBeforeFile && await reader.ReadNextSectionAsync(cancellation) is { } section; part++)
            {
                if (section.GetContentDispositionHeader() is not { } disposition) continue;
                if (disposition.IsFileDisposition()) return new IncomingFile(Name(disposition), section.Body, formValue, note);
                if (HeaderUtilities.RemoveQuotes(disposition.Name) == FormField) formValue = await ShortTextAsync(section.Body, cancellation);
                if (HeaderUtilities.RemoveQuotes(disposition.Name) == "note") note = await ShortTextAsync(section.Body, cancellation) ?? "";
            }
        }
        catch (InvalidDataException malformed)
        {
            throw new IOException("What was sent is not a form.", malformed);
        }

        return null;
    }

    /// <summary>
    /// True when the form came from this site's own page. The value stands in the form's first part; it is handed to the check
    /// as the header that a script would send, because reading the whole form for it would put the file aside first.
    /// </summary>
    public async Task<bool> IsOursAsync(HttpContext http, IAntiforgery antiforgery, string headerName)
    {
        if (FormValue is not null) http.Request.Headers[headerName] = FormValue;
        return http.Request.Headers.ContainsKey(headerName) && await antiforgery.IsRequestValidAsync(http);
    }

    /// <summary>Reads on and throws away, so that the browser gets an answer instead of a broken link; up to a limit.</summary>
    public static async Task ReadAwayAsync(Stream body, long mostBytes, CancellationToken cancellation)
    {
        byte[] piece = new byte[1 << 16];
        try
        {
            for (long read = 0; read < mostBytes;)
            {
                int count = await body.ReadAsync(piece, cancellation);
                if (count == 0) return;
                read += count;
            }
        }
        catch (IOException)
        {
            // The sender is gone; nobody waits for the answer.
        }
    }

    private static string? BoundaryOf(HttpRequest request)
    {
        if (!MediaTypeHeaderValue.TryParse(request.ContentType, out MediaTypeHeaderValue? type)
            || !type.MediaType.Equals("multipart/form-data", StringComparison.OrdinalIgnoreCase)) return null;
        string? boundary = HeaderUtilities.RemoveQuotes(type.Boundary).Value;
        return boundary is { Length: > 0 and <= LongestBoundary } ? boundary : null;
    }

    private static string Name(ContentDispositionHeaderValue disposition)
        => HeaderUtilities.RemoveQuotes(disposition.FileNameStar.HasValue ? disposition.FileNameStar : disposition.FileName).Value ?? "";

    private static async Task<string?> ShortTextAsync(Stream body, CancellationToken cancellation)
    {
        byte[] room = new byte[LongestFormValue];
        int read = await body.ReadAtLeastAsync(room, room.Length, throwOnEndOfStream: false, cancellation);
        return read < room.Length ? System.Text.Encoding.UTF8.GetString(room, 0, read) : null;
    }
}
