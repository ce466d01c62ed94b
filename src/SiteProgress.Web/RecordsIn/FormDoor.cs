using Microsoft.AspNetCore.Antiforgery;
using Microsoft.Extensions.Options;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Operation;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.RecordsIn;

/// <summary>
/// What the forms of records in are sent to. Plain HTTP: a file can be sent, recorded and withdrawn while the page's live link
/// is down, and the work goes on when the page is closed.
/// </summary>
internal sealed class FormDoor : IEndpoints
{
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        app.MapPost("/sites/{site}/records-in/send", UploadAsync).WithMetadata(new Microsoft.AspNetCore.Mvc.DisableRequestSizeLimitAttribute()).ExcludeFromDescription();
        app.MapPost("/sites/{site}/records-in/{upload:guid}/record", RecordAsync).ExcludeFromDescription();
        app.MapPost("/sites/{site}/records-in/{batch:long}/withdraw", WithdrawAsync).ExcludeFromDescription();

        // Who had to sign in again meanwhile is led back to where the form was sent to; the page with the form is what they need.
        app.MapGet("/sites/{site}/records-in/send", (string site) => Results.LocalRedirect(Addresses.List(site))).ExcludeFromDescription();
        app.MapGet("/sites/{site}/records-in/{upload:guid}/record", (string site, Guid upload) => Results.LocalRedirect(Addresses.Upload(site, upload))).ExcludeFromDescription();
        app.MapGet("/sites/{site}/records-in/{batch:long}/withdraw", (string site, long batch) => Results.LocalRedirect(Addresses.Batch(site, batch))).ExcludeFromDescription();
    }

    private static Task<IResult> UploadAsync(HttpContext http, string site, StoreUpload store, IntakeLimits limits, IAntiforgery antiforgery, IOptions<AntiforgeryOptions> options)
        => EnterAsync(http, site, async permit =>
        {
            IncomingFile.ExpectRate(http, limits);
            IResult Refused(UploadRefusal why)
            {
                Log(http).LogWarning("A file sent to {Path} was not taken: {Why}.", http.Request.Path, why);
                return Results.LocalRedirect($"{Addresses.List(site)}?refused={why}");
            }

            if (http.Request.ContentLength > limits.LargestFileBytes + FormOverheadBytes)
            {
                await IncomingFile.ReadAwayAsync(http.Request.Body, limits.LargestFileBytes, http.RequestAborted);
                return Refused(UploadRefusal.TooLong);
            }

            try
            {
                if (!IncomingFile.IsForm(http.Request)) return Refused(UploadRefusal.BrokenOff);
                if (await IncomingFile.FromFormAsync(http.Request, http.RequestAborted) is not { } file) return Refused(UploadRefusal.NoFile);
                if (!await file.IsOursAsync(http, antiforgery, options.Value.HeaderName!)) return NotOurForm(http);
                if (file.FileName.Length == 0) return Refused(UploadRefusal.NoFile);
                UploadResult stored = await store.RunAsync(permit, file.FileName, file.Bytes, http.RequestAborted);
                if (stored.Upload is { } upload) return Results.LocalRedirect(Addresses.Upload(site, upload));
                await IncomingFile.ReadAwayAsync(http.Request.Body, limits.LargestFileBytes, http.RequestAborted);
                return Refused(stored.Why!.Value);
            }
            catch (IOException)
            {
                return Refused(UploadRefusal.BrokenOff);
            }
        });

    private static Task<IResult> RecordAsync(HttpContext http, string site, Guid upload, RecordUpload record, IAntiforgery antiforgery)
        => EnterAsync(http, site, async permit =>
        {
            if (!http.Request.HasFormContentType || !await antiforgery.IsRequestValidAsync(http)) return NotOurForm(http);
            IFormCollection form = await http.Request.ReadFormAsync(http.RequestAborted);
            UploadChoices choices = Choices.Read(form);
            RecordingResult result = await record.RunAsync(permit, upload, choices, form["leaveOut"] == "yes", CancellationToken.None);
            if (result.Batch is { } batch) return Results.LocalRedirect($"{Addresses.Batch(site, batch)}?recorded=yes");
            string address = Addresses.Upload(site, upload, choices);
            return Results.LocalRedirect(address + (address.Contains('?', StringComparison.Ordinal) ? '&' : '?') + "recorded=no");
        });

    private static Task<IResult> WithdrawAsync(HttpContext http, string site, long batch, WithdrawBatch withdraw, IAntiforgery antiforgery)
        => EnterAsync(http, site, async permit =>
        {
            if (!http.Request.HasFormContentType || !await antiforgery.IsRequestValidAsync(http)) return NotOurForm(http);
            IFormCollection form = await http.Request.ReadFormAsync(http.RequestAborted);
            string? refusal = await withdraw.RunAsync(permit, batch, form["reason"].ToString(), CancellationToken.None);
            return Results.LocalRedirect($"{Addresses.Batch(site, batch)}?withdrawn={(refusal is null ? "yes" : "no")}");
        });

    /// <summary>What boundary lines, headers and the anti-forgery value add to a file.</summary>
    private const int FormOverheadBytes = 16 << 10;

    private static async Task<IResult> EnterAsync(HttpContext http, string site, Func<Permit, Task<IResult>> act)
    {
        if (http.User.AccountId() is not { } account) return Results.StatusCode(StatusCodes.Status401Unauthorized);
        Gate gate = http.RequestServices.GetRequiredService<Gate>();
        try
        {
            if (await gate.EnterAsync(account, site, http.RequestAborted) is not { } permit) return Results.NotFound();
            permit.Demand(Right.BringIn);
            return await act(permit);
        }
        catch (AccessRefusedException refused)
        {
            Refusals.Log(http.RequestServices.GetRequiredService<ILoggerFactory>(), account, site, $"{http.Request.Method} {http.Request.Path}", refused);
            return Refuse(http, StatusCodes.Status403Forbidden, RoleWords.Refusal(refused) + " Nothing was recorded.");
        }
        catch (AccessWithdrawnException)
        {
            return Refuse(http, StatusCodes.Status403Forbidden, "Your role on this site was withdrawn or changed in the meantime. Nothing was recorded.");
        }
        catch (Exception failed) when (StoreFailure.Of(failed) is { } failure && (StoreFailure.IsOddText(failure) || StoreFailure.IsAway(failure)))
        {
            return Refuse(
                http, StoreFailure.IsOddText(failure) ? StatusCodes.Status400BadRequest : StatusCodes.Status503ServiceUnavailable,
                StoreFailure.Sentence(failure) + " Go back; look whether it was recorded before you send it again.");
        }
    }

    private static IResult NotOurForm(HttpContext http)
    {
        Refusals.LogNotOurs(http);
        return Refuse(http, StatusCodes.Status400BadRequest, "This form is no longer valid. Nothing was recorded. Go back, read the page again and send it once more.");
    }

    private static IResult Refuse(HttpContext http, int status, string sentence)
    {
        Log(http).LogWarning("A form sent to {Path} was refused with {Status}.", http.Request.Path, status);
        return Results.Text(sentence, "text/plain; charset=utf-8", statusCode: status);
    }

    private static ILogger<FormDoor> Log(HttpContext http) => http.RequestServices.GetRequiredService<ILoggerFactory>().CreateLogger<FormDoor>();
}
