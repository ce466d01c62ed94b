using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Treatment;

namespace SiteProgress.Web.Shell;

/// <summary>A page, or a live part of one, on which people decide: it acts, reads again, and says what was refused.</summary>
public abstract class ActingPage : SitePage
{
    /// <summary>Why the last action was not done; it stays until the next one, whatever is read meanwhile.</summary>
    protected string? Told { get; private set; }

    /// <summary>What the last action did; null after a refusal.</summary>
    protected string? Done { get; private set; }

    /// <summary>Acts and reads the page again.</summary>
    /// <param name="job">The job.</param>
    /// <param name="done">What to say when it was done.</param>
    /// <returns>The answer; null when the person may not.</returns>
    protected async Task<TreatmentAnswer?> ActAsync(Func<Permit, CancellationToken, Task<TreatmentAnswer>> job, string done)
    {
        (Told, Done) = (null, null);
        TreatmentAnswer? answer = await AskAsync(job);
        string? refusal = answer is null ? Refusal : answer.Refusal;
        await ReloadAsync();
        (Told, Done) = (refusal, refusal is null ? done : null);
        // The form that was sent draws itself anew, not the page around it.
        StateHasChanged();
        return answer?.Refusal is null ? answer : null;
    }

    /// <summary>Acts, for a form that keeps what was typed unless it was done.</summary>
    protected async Task<bool> TryAsync(Func<Permit, CancellationToken, Task<TreatmentAnswer>> job, string done)
        => await ActAsync(job, done) is not null;
}
