using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Assessment;

/// <summary>A capture in which noise lets a few windows of a cut waveform through: their median must not pass for the stroke.</summary>
public sealed class CutWindowTests
{
    private static readonly FeederDescription Feeder = new()
    {
        Name = "Soda ash feeder",
        Drive = new(50, 1, Free: false),
        Band = new(Length.FromMillimetres(1.65), Length.FromMillimetres(1.78), Length.FromMillimetres(1.9)),
    };

    [Theory]
    [InlineData(3, 4, 0, false)]
    [InlineData(3, 0, 4, false)]
    [InlineData(4, 2, 2, true)]
    [InlineData(5, 0, 0, true)]
    public void A_few_windows_that_count_among_more_that_are_cut_or_may_be_give_no_stroke(int counting, int cut, int open, bool stroke)
    {
        var builder = new ReportBuilder(Feeder);
        WindowReading Reading(int i, WindowQuality quality) => new()
        {
            StartSeconds = 0.5 * i,
            LengthSeconds = 0.5,
            Quality = quality,
            Motion = MotionState.Running,
            StrokeMetres = quality == WindowQuality.Good ? 1.7e-3 : null,
            FundamentalMetres = quality == WindowQuality.Good ? 1.7e-3 : null,
            NoiseMetres = 1e-6,
            AtLeastMetres = quality == WindowQuality.Good ? null : 1.69e-3,
            ClippedSamples = quality == WindowQuality.Clipped ? 40 : 0,
            Reason = quality == WindowQuality.Good ? null : "flat",
        };
        var kinds = Enumerable.Repeat(WindowQuality.Good, counting).Concat(Enumerable.Repeat(WindowQuality.Clipped, cut)).Concat(Enumerable.Repeat(WindowQuality.Noisy, open)).ToArray();
        for (var i = 0; i < kinds.Length; i++)
        {
            builder.Add(new AssessedWindow(Reading(i, kinds[i]), kinds[i] == WindowQuality.Good ? Verdict.InBand : Verdict.Unmeasurable));
        }

        var report = builder.Build(0.01);
        Assert.Equal((stroke, stroke ? Verdict.InBand : Verdict.Unmeasurable), (report.Stroke.Stroke is not null, report.Stroke.Verdict));
        Assert.Equal(cut + open > 0 ? 1.69e-3 : null, report.Stroke.AtLeast);
    }
}
