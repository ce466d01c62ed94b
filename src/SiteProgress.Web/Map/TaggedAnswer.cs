using System.IO.Compression;
using Microsoft.Net.Http.Headers;

namespace SiteProgress.Web.Map;

/// <summary>An answer that is written as it goes, compressed as the browser allows, with a tag by which it is kept.</summary>
/// <param name="tag">What tells this state of the answer from the next.</param>
/// <param name="contentType">What it is.</param>
/// <param name="write">Writes it.</param>
internal sealed class TaggedAnswer(string tag, string contentType, Func<Stream, CancellationToken, Task> write) : IResult
{
    /// <summary>The browser holds this answer already.</summary>
    public static IResult Unchanged { get; } = Results.StatusCode(StatusCodes.Status304NotModified);

    /// <summary>True when the browser holds the answer with this tag.</summary>
    public static bool Holds(HttpContext http, string tag)
    {
        Describe(http, tag);
        EntityTagHeaderValue own = Weak(tag);
        return http.Request.GetTypedHeaders().IfNoneMatch.Any(held => held.Compare(own, useStrongComparison: false));
    }

    /// <inheritdoc />
    public async Task ExecuteAsync(HttpContext httpContext)
    {
        Describe(httpContext, tag);
        httpContext.Response.ContentType = contentType;
        (string? coding, Stream? compressing) = Coding(httpContext);
        if (compressing is null)
        {
            await write(httpContext.Response.Body, httpContext.RequestAborted);
            return;
        }

        httpContext.Response.Headers.ContentEncoding = coding;
        await using (compressing) await write(compressing, httpContext.RequestAborted);
    }

    private static void Describe(HttpContext http, string tag)
    {
        http.Response.Headers.ETag = Weak(tag).ToString();
        http.Response.Headers.Vary = HeaderNames.AcceptEncoding;
    }

    /// <summary>Weak, because the same answer travels in different codings.</summary>
    private static EntityTagHeaderValue Weak(string tag) => new($"\"{tag}\"", isWeak: true);

    private static (string? Name, Stream? Compressing) Coding(HttpContext http)
    {
        bool Takes(string coding) => http.Request.GetTypedHeaders().AcceptEncoding.Any(one => one.Value == coding && one.Quality is not 0);
        if (Takes("br")) return ("br", new BrotliStream(http.Response.Body, CompressionLevel.Fastest, leaveOpen: true));
        return Takes("gzip") ? ("gzip", new GZipStream(http.Response.Body, CompressionLevel.Fastest, leaveOpen: true)) : (null, null);
    }
}
