using Shouldly;
using SiteProgress.Bench.Logs;
using Xunit;

namespace SiteProgress.Bench.Tests.Logs;

/// <summary>A small part of the study under fixed seeds; the whole is <c>./bench logs-study</c>.</summary>
public sealed class LogStudyTests
{
    [Theory]
    [InlineData("white")]
    [InlineData("swell")]
    [InlineData("gauge")]
    public void Sixty_generated_logs_are_read_as_they_truly_were(string family)
    {
        LogStudy study = LogStudy.Run(family, 900_000, 60);

        study.CyclesRightRatio.ShouldBeGreaterThan(0.98, string.Join('\n', study.Broken));
        study.DiametersWithinRatio.ShouldBeGreaterThan(0.95);
        study.SandWithinRatio.ShouldBeGreaterThan(0.95);
        study.CoveredRatio.ShouldBeGreaterThan(0.85);
        study.HangUpsMissed.ShouldBe(0, string.Join("\n", study.Broken));
        study.FalseHangUps.ShouldBeLessThanOrEqualTo(1);
    }
}
