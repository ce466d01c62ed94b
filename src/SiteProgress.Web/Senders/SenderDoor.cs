using System.Threading.RateLimiting;
using Microsoft.AspNetCore.Http.Features;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Operation;
using SiteProgress.Jobs.Senders;

namespace SiteProgress.Web.Senders;

/// <summary>
/// The way in for machines: their key in the header <c>Authorization: Bearer sps_...</c>, how often and how much they may send, and how
/// they are refused. A further kind of thing that machines send is one more address that asks here.
/// </summary>
internal sealed class SenderDoor(SenderGate gate, SenderLimits limits, TimeProvider time) : IDisposable
{
    private readonly PartitionedRateLimiter<string> _wrongKeys = PartitionedRateLimiter.Create<string, string>(address =>
        RateLimitPartition.GetFixedWindowLimiter(address, _ => new FixedWindowRateLimiterOptions { PermitLimit = limits.WrongKeysPerMinute, Window = TimeSpan.FromMinutes(1) }));

    private readonly PartitionedRateLimiter<Guid> _requests = PartitionedRateLimiter.Create<Guid, Guid>(key =>
        RateLimitPartition.GetFixedWindowLimiter(key, _ => new FixedWindowRateLimiterOptions { PermitLimit = limits.RequestsPerMinute, Window = TimeSpan.FromMinutes(1) }));

    private readonly PartitionedRateLimiter<Guid> _atOnce = PartitionedRateLimiter.Create<Guid, Guid>(key =>
        RateLimitPartition.GetConcurrencyLimiter(key, _ => new ConcurrencyLimiterOptions { PermitLimit = limits.RequestsAtOnce }));

    /// <summary>Lets a machine in, reads what it sends, and runs the job.</summary>
    /// <param name="http">The request.</param>
    /// <param name="site">Code of the site in the address.</param>
    /// <param name="job">The job, with the proof of the sender and the bytes it sent.</param>
    public async Task<IResult> AskAsync(HttpContext http, string site, Func<SenderPermit, byte[], Task<IResult>> job)
    {
        try
        {
            // A right key is let in however many wrong ones came from its address: all loggers of a barge may share one.
            if (await gate.EnterAsync(site, KeyIn(http.Request), http.RequestAborted) is not { } permit)
            {
                using RateLimitLease counted = _wrongKeys.AttemptAcquire(http.Connection.RemoteIpAddress?.ToString() ?? "unknown");
                return counted.IsAcquired
                    ? Refuse(StatusCodes.Status401Unauthorized, "The key is missing, unknown, withdrawn or of another site.")
                    : TooOften(http, "Too many wrong keys came from this address. Wait a minute.");
            }

            using RateLimitLease one = _requests.AttemptAcquire(permit.Key);
            if (!one.IsAcquired) return TooOften(http, $"This key may send {limits.RequestsPerMinute} times a minute. Wait, or send more rows at a time.");
            using RateLimitLease place = _atOnce.AttemptAcquire(permit.Key);
            if (!place.IsAcquired) return TooOften(http, $"This key may send {limits.RequestsAtOnce} requests at a time. Wait for their answers.");
            return await ReadAsync(http) is { } bytes
                ? await job(permit, bytes)
                : Refuse(StatusCodes.Status413PayloadTooLarge, $"At most {limits.LargestRequestBytes} bytes at once. Send fewer rows at a time.");
        }
        catch (AccessWithdrawnException)
        {
            return Refuse(StatusCodes.Status401Unauthorized, "The key was withdrawn in the meantime; nothing was recorded.");
        }
        catch (Exception broken) when (broken is IOException or OperationCanceledException)
        {
            return Refuse(StatusCodes.Status400BadRequest, "What was sent did not arrive whole. Nothing was recorded. Send it again.");
        }
        catch (Exception failure) when (StoreFailure.Of(failure) is not null)
        {
            http.Response.Headers.RetryAfter = "10";
            return Refuse(StatusCodes.Status503ServiceUnavailable, "The store did not answer. Send it again in a moment; what was recorded is not recorded twice.");
        }
    }

    /// <summary>A refusal as problem details.</summary>
    public static IResult Refuse(int status, string sentence) => Results.Problem(statusCode: status, title: "Nothing was recorded.", detail: sentence);

    /// <inheritdoc />
    public void Dispose()
    {
        _wrongKeys.Dispose();
        _requests.Dispose();
        _atOnce.Dispose();
    }

    private static string KeyIn(HttpRequest request)
    {
        string header = request.Headers.Authorization.ToString();
        return header.StartsWith("Bearer ", StringComparison.OrdinalIgnoreCase) ? header["Bearer ".Length..].Trim() : "";
    }

    private static IResult TooOften(HttpContext http, string sentence)
    {
        http.Response.Headers.RetryAfter = "60";
        return Refuse(StatusCodes.Status429TooManyRequests, sentence);
    }

    /// <summary>The whole body, read before anything of the store is held; null where it is too large.</summary>
    private async Task<byte[]?> ReadAsync(HttpContext http)
    {
        if (http.Request.ContentLength > limits.LargestRequestBytes) return null;
        if (http.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } size) size.MaxRequestBodySize = null; // Counted here, to answer in words.
        using CancellationTokenSource late = new(TimeSpan.FromSeconds(limits.ArrivalSeconds), time);
        using CancellationTokenSource end = CancellationTokenSource.CreateLinkedTokenSource(late.Token, http.RequestAborted);
        using MemoryStream bytes = new();
        byte[] piece = new byte[1 << 14];
        while (await http.Request.Body.ReadAsync(piece, end.Token) is > 0 and var read)
        {
            if (bytes.Length + read > limits.LargestRequestBytes) return null;
            bytes.Write(piece, 0, read);
        }

        return bytes.ToArray();
    }
}
