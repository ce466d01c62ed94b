using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.Verification;

/// <summary>Verifies a site for one of its people: whoever may see it may know whether it is what its records give.</summary>
public sealed class VerifyOwnSite(VerifySite verify)
{
    // A verification reads all records and works the whole site out anew; two at a time would only slow each other.
    private static readonly SemaphoreSlim OneAtATime = new(1, 1);

    /// <summary>Verifies the site; waits while another verification of this node is under way.</summary>
    [Needs(Right.See)]
    public async Task<SiteVerification?> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        await OneAtATime.WaitAsync(cancellation);
        try
        {
            return await verify.RunAsync(permit.SiteCode, cancellation);
        }
        finally
        {
            OneAtATime.Release();
        }
    }
}
