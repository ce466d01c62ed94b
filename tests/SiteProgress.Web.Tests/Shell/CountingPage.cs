using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;
using Microsoft.AspNetCore.Components.Web;
using SiteProgress.Jobs.Access;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Tests.Shell;

/// <summary>A page of a site that counts how often it read and acted.</summary>
public sealed class CountingPage : SitePage
{
    public int Readings { get; private set; }

    public int Actions { get; private set; }

    protected override Task LoadAsync() => AskAsync((permit, _) =>
    {
        permit.Demand(Right.See);
        return Task.FromResult(++Readings);
    });

    protected override void BuildRenderTree(RenderTreeBuilder builder)
    {
        builder.OpenComponent<SiteView>(0);
        builder.AddAttribute(1, nameof(SiteView.Of), this);
        builder.AddAttribute(2, nameof(SiteView.Title), "Counting");
        builder.AddAttribute(3, nameof(SiteView.ChildContent), (RenderFragment)Content);
        builder.CloseComponent();
    }

    private void Content(RenderTreeBuilder content)
    {
        content.AddMarkupContent(0, "<input id=\"typed\" />");
        content.OpenElement(1, "output");
        content.AddContent(2, $"{Readings} readings, {Actions} actions");
        content.CloseElement();
        content.OpenElement(3, "button");
        content.AddAttribute(4, "onclick", EventCallback.Factory.Create<MouseEventArgs>(this, ActAsync));
        content.AddContent(5, "Bring in");
        content.CloseElement();
    }

    private Task ActAsync() => DoAsync((permit, _) =>
    {
        permit.Demand(Right.BringIn);
        Actions++;
        return Task.CompletedTask;
    });
}
