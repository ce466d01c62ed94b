using Shouldly;
using SiteProgress.Core.Deviations;
using Xunit;

namespace SiteProgress.Core.Tests.Deviations;

public sealed class InclinationFiguresTests
{
    private static readonly LimitAnswer Within = new(0, 1.2, 0.8);

    [Fact]
    public void Without_an_inclination_there_are_no_figures() => InclinationFigures.Of([]).ShouldBeNull();

    [Fact]
    public void Figures_of_a_selection_are_those_of_its_sorted_values()
    {
        // By hand: mean of 0.2, 0.4, 0.6, 1.2, 1.3 is 3.7 / 5; the median the third; type 7 of Hyndman and Fan (1996) at 0.95 is
        // 1.2 + 0.8 (1.3 - 1.2). A value equal to its limit keeps it; 1.2 and 1.3 are beyond the alert of 0.8.
        InclinationFigures figures = InclinationFigures.Of([.. new[] { 1.3, 0.2, 0.6, 1.2, 0.4 }.Select(degrees => Within with { Value = degrees })])!;

        figures.Count.ShouldBe(5);
        figures.MeanDegrees.ShouldBe(0.74, 1e-12);
        figures.MedianDegrees.ShouldBe(0.6, 1e-12);
        figures.Percentile95Degrees.ShouldBe(1.28, 1e-12);
        figures.LargestDegrees.ShouldBe(1.3);
        (figures.WithinLimit, figures.Within.ShareRatio, figures.BeyondAlert).ShouldBe((4, 0.8, 2));
    }

    [Fact]
    public void Where_no_alert_is_set_none_is_counted()
        => InclinationFigures.Of([new LimitAnswer(0.4, 1.2, null)])!.BeyondAlert.ShouldBeNull();
}
