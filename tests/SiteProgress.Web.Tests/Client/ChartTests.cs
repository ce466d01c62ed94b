using Bunit;
using Microsoft.AspNetCore.Components;
using Shouldly;
using SiteProgress.Web.Shell;
using Xunit;

namespace SiteProgress.Web.Tests.Client;

public sealed class ChartTests : BunitContext
{
    private static readonly object Option = new { series = Array.Empty<object>() };
    private readonly BunitJSModuleInterop module;

    public ChartTests()
    {
        module = JSInterop.SetupModule("./dist/chart.js");
        module.Mode = JSRuntimeMode.Loose;
    }

    private IRenderedComponent<Chart> Draw(object option, Action<ComponentParameterCollectionBuilder<Chart>>? more = null)
        => Render<Chart>(parameters =>
        {
            parameters.Add(chart => chart.Title, "Piles by day").Add(chart => chart.Summary, "Twelve piles.").Add(chart => chart.Option, option);
            more?.Invoke(parameters);
        });

    [Fact]
    public void A_chart_says_in_words_what_it_shows_and_keeps_its_numbers_as_a_table_behind_it()
    {
        IRenderedComponent<Chart> chart = Draw(Option, parameters => parameters.Add(one => one.CsvAddress, "/x.csv").AddChildContent("<table></table>"));

        chart.Find("[role=img]").GetAttribute("aria-label").ShouldBe("Piles by day. Twelve piles.");
        chart.Find("details table").ShouldNotBeNull();
        chart.Find("a[download]").GetAttribute("href").ShouldBe("/x.csv");
    }

    [Fact]
    public void The_same_option_is_drawn_once_and_another_one_anew()
    {
        IRenderedComponent<Chart> chart = Draw(Option);
        chart.Render(parameters => parameters.Add(one => one.Title, "Piles by shift"));
        module.Invocations["create"].Count.ShouldBe(1);
        module.Invocations["create"][0].Arguments[2].ShouldBe(Option);
    }

    [Fact]
    public void A_chosen_point_leads_only_to_an_address_of_this_server()
    {
        IRenderedComponent<Chart> chart = Draw(Option);
        NavigationManager addresses = Services.GetService<NavigationManager>()!;

        chart.InvokeAsync(() => chart.Instance.ChosenAsync("//elsewhere.invalid/x"));
        addresses.Uri.ShouldBe("http://localhost/");
        chart.InvokeAsync(() => chart.Instance.ChosenAsync("/sites/s/piles/B-1"));
        addresses.Uri.ShouldBe("http://localhost/sites/s/piles/B-1");
    }

    [Fact]
    public void Frames_are_offered_only_where_the_page_listens_for_them()
    {
        Draw(Option).Markup.ShouldNotContain("Select by a frame");
        ChartFrame? framed = null;
        IRenderedComponent<Chart> chart = Draw(Option, parameters => parameters.Add(one => one.Framed, frame => framed = frame));
        chart.Markup.ShouldContain("Select by a frame");
        chart.InvokeAsync(() => chart.Instance.FramedAsync(new ChartFrame(1, 2, 3, 4)));
        framed.ShouldBe(new ChartFrame(1, 2, 3, 4));
    }
}
