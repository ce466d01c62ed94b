using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;

namespace SiteProgress.Web.Shell;

/// <summary>A word of a drawing. In markup the element's name is taken by the template language, so it is made here.</summary>
public sealed class SvgText : ComponentBase
{
    /// <summary>What it says.</summary>
    [Parameter, EditorRequired]
    public string Word { get; set; } = "";

    /// <summary>Place and class.</summary>
    [Parameter(CaptureUnmatchedValues = true)]
    public IReadOnlyDictionary<string, object>? Attributes { get; set; }

    /// <inheritdoc />
    protected override void BuildRenderTree(RenderTreeBuilder builder)
    {
        ArgumentNullException.ThrowIfNull(builder);
        builder.OpenElement(0, "text");
        builder.AddMultipleAttributes(1, Attributes);
        builder.AddContent(2, Word);
        builder.CloseElement();
    }
}
