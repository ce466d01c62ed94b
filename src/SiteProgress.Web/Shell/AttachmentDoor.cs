using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.Extensions.Options;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Attachments;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Jobs.Treatment;

namespace SiteProgress.Web.Shell;

/// <summary>
/// Attached files in and out. In by a plain form, which works while the page's live link is down; out as downloads only: whatever
/// the bytes are, a browser never shows them as a page of this site.
/// </summary>
internal sealed class AttachmentDoor : IEndpoints
{
    /// <summary>What boundary lines, headers, note and the anti-forgery value add to a file.</summary>
    private const int FormOverheadBytes = 32 << 10;

    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        app.MapPost("/sites/{site}/attachments/send", SendAsync).WithMetadata(new Microsoft.AspNetCore.Mvc.DisableRequestSizeLimitAttribute()).ExcludeFromDescription();
        app.MapGet("/sites/{site}/attachments/send", (string site) => Results.LocalRedirect($"/sites/{Uri.EscapeDataString(site)}/piles")).ExcludeFromDescription();
        app.MapGet("/sites/{site}/attachments/{sequence:long}", GiveAsync).ExcludeFromDescription();
        api.MapGet("/sites/{site}/attachments", (HttpContext http, string site, ReadAttachments job, string? pile, int? nonConformance) =>
                Api.AskAsync(http, site, (permit, cancellation) => job.RunAsync(permit, pile, nonConformance, cancellation)))
            .WithName("Attachments")
            .WithSummary("Files attached as evidence; pile, nonConformance. The bytes of one are at /sites/{site}/attachments/{sequence}.")
            .Produces<ReadAttachments.List>();
    }

    /// <summary>Seals what the page is to say after sending, so that nobody's link makes it say something else.</summary>
    public static IDataProtector Seal(IDataProtectionProvider protection) => protection.CreateProtector("SiteProgress.Attachments.Answer");

    /// <summary>The page an attachment belongs to.</summary>
    public static string PageOf(string site, AttachmentTarget target)
        => target.Pile is { } pile
            ? $"/sites/{Uri.EscapeDataString(site)}/piles/{Uri.EscapeDataString(pile)}"
            : $"/sites/{Uri.EscapeDataString(site)}/non-conformances/{target.NonConformance}";

    private static Task<IResult> GiveAsync(HttpContext http, string site, long sequence, ReadAttachments job)
        => Api.AskAsync<IResult>(http, site, async (permit, cancellation) =>
        {
            if (await job.OpenAsync(permit, sequence, cancellation) is not { } found) return Results.NotFound();
            // Belt and braces: a name makes it a download, the header below takes every power from it even where it is opened.
            http.Response.Headers.ContentSecurityPolicy = "sandbox; default-src 'none'";
            return Results.Stream(found.File.Bytes, TypeOf(found.Content), found.File.FileName);
        });

    private static string TypeOf(AttachmentContent content) => content switch
    {
        AttachmentContent.Jpeg => "image/jpeg",
        AttachmentContent.Png => "image/png",
        AttachmentContent.Pdf => "application/pdf",
        _ => "application/octet-stream",
    };

    private static Task<IResult> SendAsync(
        HttpContext http, string site, string? pile, int? nonConformance, AttachFile attach, IntakeLimits limits, IAntiforgery antiforgery, IOptions<AntiforgeryOptions> options, IDataProtectionProvider protection)
        => Api.AskAsync<IResult>(http, site, async (permit, cancellation) =>
        {
            permit.Demand(Right.Comment);
            AttachmentTarget target = new(pile, nonConformance);
            IResult Back(string? refusal) => Results.LocalRedirect($"{PageOf(site, target)}?attached={(refusal is null ? "yes" : Seal(protection).Protect(refusal))}#attachments");
            IncomingFile.ExpectRate(http, limits);
            try
            {
                if (!IncomingFile.IsForm(http.Request)) return Back(StoreUpload.Sentence(UploadRefusal.BrokenOff, limits));
                if (http.Request.ContentLength > AttachFile.LargestBytes + FormOverheadBytes)
                {
                    await IncomingFile.ReadAwayAsync(http.Request.Body, AttachFile.LargestBytes * 4, cancellation);
                    return Back($"The file is longer than {AttachFile.LargestBytes >> 20} MB. Nothing was kept.");
                }

                if (await IncomingFile.FromFormAsync(http.Request, cancellation) is not { } file) return Back(StoreUpload.Sentence(UploadRefusal.NoFile, limits));
                if (!await file.IsOursAsync(http, antiforgery, options.Value.HeaderName!))
                {
                    Refusals.LogNotOurs(http);
                    return Results.Text("This form is no longer valid. Nothing was recorded. Go back, read the page again and send it once more.", "text/plain; charset=utf-8", statusCode: StatusCodes.Status400BadRequest);
                }

                if (file.FileName.Length == 0) return Back(StoreUpload.Sentence(UploadRefusal.NoFile, limits));
                TreatmentAnswer answer = await attach.RunAsync(permit, target, file.FileName, file.Note, file.Bytes, cancellation);
                await IncomingFile.ReadAwayAsync(http.Request.Body, AttachFile.LargestBytes, cancellation);
                return Back(answer.Refusal);
            }
            catch (IOException)
            {
                return Back(StoreUpload.Sentence(UploadRefusal.BrokenOff, limits));
            }
        });
}
