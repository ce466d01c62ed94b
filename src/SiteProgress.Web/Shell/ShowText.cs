using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Components;

namespace SiteProgress.Web.Shell;

/// <summary>
/// Text of records, sheets and sentences as a page sets it: a date stays on one line (browsers break it at its hyphens), and
/// the signs of a limit and of the replacement ratio, which such text holds in plain letters, are set as they are printed.
/// </summary>
public static partial class ShowText
{
    /// <summary>The text, set.</summary>
    /// <param name="text">Plain text; null sets nothing.</param>
    public static RenderFragment Of(string? text) => builder =>
    {
        int from = 0;
        foreach (Match found in Special().Matches(text ?? ""))
        {
            builder.AddContent(0, text![from..found.Index]);
            from = found.Index + found.Length;
            switch (found.Value)
            {
                case ">=":
                    builder.AddContent(1, "\u2265");
                    break;
                case "<=":
                    builder.AddContent(1, "\u2264");
                    break;
                case "a_s":
                    builder.AddContent(2, "a");
                    builder.OpenElement(3, "sub");
                    builder.AddContent(4, "s");
                    builder.CloseElement();
                    break;
                default:
                    builder.OpenElement(5, "span");
                    builder.AddAttribute(6, "class", "unbroken");
                    builder.AddContent(7, found.Value);
                    builder.CloseElement();
                    break;
            }
        }

        builder.AddContent(8, text?[from..]);
    };

    /// <summary>A day, kept on one line.</summary>
    public static RenderFragment Of(DateOnly day) => Of(ShowDay.InAddress(day));

    [GeneratedRegex(@">=|<=|\ba_s\b|\b([A-Z][a-z]{2} )?\d{4}-\d\d-\d\d( \d\d:\d\d)?\b")]
    private static partial Regex Special();
}
