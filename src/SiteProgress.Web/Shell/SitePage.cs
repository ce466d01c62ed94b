using System.Data.Common;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.JSInterop;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Operation;

namespace SiteProgress.Web.Shell;

/// <summary>
/// A page of one site. It reads and acts through <see cref="AskAsync{T}"/> alone, which enters the gate anew each time, so a
/// role withdrawn while the page is open stops its next action and its updates.
/// </summary>
/// <remarks>
/// Write the page as <c>&lt;SiteView Of="this" Title="…"&gt;</c> around its content and override <see cref="LoadAsync"/>.
/// <c>LoadAsync</c> runs when the page opens, when its address changes, and whenever the site has new records.
/// </remarks>
public abstract class SitePage : ComponentBase, IAsyncDisposable
{
    /// <summary>How often an open page asks whether its person still has a role; below the five seconds promised.</summary>
    public static readonly TimeSpan RoleLook = TimeSpan.FromSeconds(4);

    private readonly CancellationTokenSource leavingSource = new();
    private readonly CancellationToken leaving;
    private readonly SemaphoreSlim oneAtATime = new(1, 1);
    private IDisposable? subscription;
    private IJSObjectReference? script;
    private int site;
    private int reloadsWaiting;
    private bool readBefore;
    private bool isRead;
    private bool markAgain;

    /// <summary>Begins the page's life.</summary>
    protected SitePage() => leaving = leavingSource.Token;

    /// <summary>What the page can show.</summary>
    public enum View
    {
        /// <summary>The first answer is under way.</summary>
        Reading,

        /// <summary>Content.</summary>
        Open,

        /// <summary>The site does not exist for this person.</summary>
        NotFound,

        /// <summary>The person may see the site but not this page.</summary>
        Refused,

        /// <summary>The session ended.</summary>
        SignedOut,

        /// <summary>The store did not answer the first time.</summary>
        Unreachable,
    }

    /// <summary>Code of the site in the address.</summary>
    [Parameter]
    public string Site { get; set; } = "";

    /// <summary>What is shown now.</summary>
    public View Shows { get; private set; }

    /// <summary>Why the last action was not done, as a sentence; null when it was. What was typed stays.</summary>
    public string? Refusal { get; protected set; }

    /// <summary>The role the store gave at the last call; decides which buttons are drawn, never what is allowed.</summary>
    public Role? SeenRole { get; private set; }

    /// <summary>Ends when the page is left.</summary>
    protected CancellationToken Leaving => leaving;

    [CascadingParameter]
    private Task<AuthenticationState>? Authentication { get; set; }

    [CascadingParameter]
    private HttpContext? Http { get; set; }

    [Inject]
    private Gate Gate { get; set; } = default!;

    [Inject]
    private SiteChanges Changes { get; set; } = default!;

    [Inject]
    private TimeProvider Time { get; set; } = default!;

    [Inject]
    private IJSRuntime Script { get; set; } = default!;

    [Inject]
    private ILoggerFactory Loggers { get; set; } = default!;

    /// <summary>True when a button for this right is worth drawing.</summary>
    protected bool May(Right right) => SeenRole is { } role && RoleRights.Holds(role, right);

    /// <summary>Reads what the page shows, through <see cref="AskAsync{T}"/>.</summary>
    protected virtual Task LoadAsync() => Task.CompletedTask;

    /// <summary>Runs a job with a fresh permit of the signed-in person.</summary>
    /// <param name="job">The job.</param>
    /// <returns>Its answer; the default value when the person may not, which the page then says itself.</returns>
    protected async Task<T?> AskAsync<T>(Func<Permit, CancellationToken, Task<T>> job)
    {
        if (await EnterAsync() is not { } permit) return default;
        try
        {
            T answer = await job(permit, leaving);
            Shows = View.Open;
            Refusal = null;
            return answer;
        }
        catch (AccessRefusedException refused)
        {
            Refusals.Log(Loggers, permit.Account, Site, GetType().Name, refused);
            Refusal = RoleWords.Refusal(refused);
            if (Shows is not View.Open) Become(View.Refused, StatusCodes.Status403Forbidden);
        }
        catch (AccessWithdrawnException withdrawn)
        {
            Refusal = withdrawn.Message;
        }
        catch (Exception failure) when (StoreFailure.Of(failure) is not null)
        {
            StoreFailed(StoreFailure.Of(failure)!);
        }
        catch (OperationCanceledException) when (leaving.IsCancellationRequested)
        {
            // The page was left; nobody waits for the answer.
        }

        return default;
    }

    /// <summary>Runs a job that answers nothing.</summary>
    /// <returns>True when it was done.</returns>
    protected Task<bool> DoAsync(Func<Permit, CancellationToken, Task> job)
        => AskAsync(async (permit, cancellation) =>
        {
            await job(permit, cancellation);
            return true;
        });

    /// <summary>Reads again what the page shows.</summary>
    protected async Task ReloadAsync()
    {
        await oneAtATime.WaitAsync(leaving);
        try
        {
            await LoadAsync();
            if (Shows is View.Reading && await EnterAsync() is not null) Shows = View.Open;
        }
        finally
        {
            oneAtATime.Release();
        }
    }

    /// <summary>
    /// The first time a live page reads before it draws: until then what the server drew beforehand stays in place, instead of
    /// giving way to "Reading…" for a moment; and the mark that the page is live comes with its content.
    /// </summary>
    public override async Task SetParametersAsync(ParameterView parameters)
    {
        if (RendererInfo.IsInteractive && !readBefore)
        {
            readBefore = true;
            parameters.SetParameterProperties(this);
            await ReloadAsync();
            isRead = true;
            parameters = ParameterView.Empty; // Already taken; a view of parameters is valid until the first wait only.
        }

        await base.SetParametersAsync(parameters);
    }

    /// <inheritdoc />
    protected override async Task OnParametersSetAsync()
    {
        if (isRead)
        {
            isRead = false;
            return;
        }

        await ReloadAsync();
        markAgain = true;
    }

    /// <inheritdoc />
    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (!firstRender)
        {
            await MarkAgainAsync();
            return;
        }

        try
        {
            script = await Script.InvokeAsync<IJSObjectReference>("import", leaving, "./shell.js");
            await script.InvokeVoidAsync("markLive", leaving);
        }
        catch (Exception gone) when (gone is JSDisconnectedException or OperationCanceledException)
        {
            return; // The browser went away before the page was up.
        }

        _ = LookAfterRoleAsync();
    }

    /// <summary>Another address of the same page: the browser replaced what the server drew, and the mark with it.</summary>
    private async Task MarkAgainAsync()
    {
        if (!markAgain || script is null) return;
        markAgain = false;
        try
        {
            await script.InvokeVoidAsync("markLive", leaving);
        }
        catch (Exception gone) when (gone is JSDisconnectedException or OperationCanceledException)
        {
            // The browser went away; there is nothing left to mark.
        }
    }

    private async Task<Permit?> EnterAsync()
    {
        Guid? account = Authentication is null ? null : (await Authentication).User.AccountId();
        if (account is null)
        {
            Become(View.SignedOut, StatusCodes.Status401Unauthorized);
            return null;
        }

        Permit? permit;
        try
        {
            permit = await Gate.EnterAsync(account.Value, Site, leaving);
        }
        catch (Exception failure) when (StoreFailure.Of(failure) is not null)
        {
            StoreFailed(StoreFailure.Of(failure)!);
            return null;
        }
        catch (OperationCanceledException) when (leaving.IsCancellationRequested)
        {
            return null;
        }

        if (permit is null)
        {
            Become(View.NotFound, StatusCodes.Status404NotFound);
            return null;
        }

        SeenRole = permit.Role;
        if (Shows is View.NotFound or View.SignedOut or View.Unreachable) Shows = View.Reading;
        Follow(permit.Site);
        return permit;
    }

    private void Become(View view, int status)
    {
        Shows = view;
        if (view is View.NotFound or View.SignedOut)
        {
            SeenRole = null;
            subscription?.Dispose();
            subscription = null;
        }

        if (Http is { Response.HasStarted: false }) Http.Response.StatusCode = status;
    }

    private void StoreFailed(DbException failure)
    {
        Loggers.CreateLogger(GetType()).LogError("The store failed a page ({Kind}, {State}).", failure.GetType().Name, failure.SqlState);
        Refusal = StoreFailure.IsOddText(failure) ? StoreFailure.Sentence(failure) : StoreFailure.Sentence(failure) + " What you typed is kept.";
        if (Shows is View.Reading) Become(View.Unreachable, StoreFailure.IsOddText(failure) ? StatusCodes.Status400BadRequest : StatusCodes.Status503ServiceUnavailable);
    }

    private void Follow(int entered)
    {
        if (!RendererInfo.IsInteractive || leaving.IsCancellationRequested || (subscription is not null && site == entered)) return;
        subscription?.Dispose();
        site = entered;
        subscription = Changes.Subscribe(entered, SiteChanged);
    }

    /// <summary>Many notices at once make one reading: while one waits for its turn, another would show nothing newer.</summary>
    private void SiteChanged()
    {
        if (Interlocked.Exchange(ref reloadsWaiting, 1) == 1) return;
        _ = InvokeAsync(async () =>
        {
            Interlocked.Exchange(ref reloadsWaiting, 0);
            if (leaving.IsCancellationRequested) return;
            try
            {
                await ReloadAsync();
                StateHasChanged();
            }
            catch (OperationCanceledException) when (leaving.IsCancellationRequested)
            {
                // The page was left while it read.
            }
            catch (Exception failure)
            {
                await DispatchExceptionAsync(failure);
            }
        });
    }

    private async Task LookAfterRoleAsync()
    {
        using PeriodicTimer timer = new(RoleLook, Time);
        try
        {
            while (await timer.WaitForNextTickAsync(leaving)) await InvokeAsync(LookAsync);
        }
        catch (Exception ended) when (ended is OperationCanceledException or ObjectDisposedException)
        {
            // The page was left.
        }
    }

    private async Task LookAsync()
    {
        View before = Shows;
        Role? held = SeenRole;
        if (await EnterAsync() is not null && (before is not (View.Open or View.Refused) || held != SeenRole)) await ReloadAsync();
        if (before != Shows || held != SeenRole) StateHasChanged();
    }

    /// <inheritdoc />
    public virtual async ValueTask DisposeAsync()
    {
        GC.SuppressFinalize(this);
        await leavingSource.CancelAsync();
        subscription?.Dispose();
        subscription = null;
        try
        {
            if (script is not null) await script.DisposeAsync();
        }
        catch (JSDisconnectedException)
        {
            // The browser is gone, and its script with it.
        }

        leavingSource.Dispose();
    }
}
