using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Pipeline;
using StrokeWatch.Tests.Measurement;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.Tests.Pipeline;

/// <summary>Samples taken at jittering instants and written down as evenly spaced: what jitter takes off is given back.</summary>
public sealed class SamplingJitterTests(ITestOutputHelper output)
{
    private const double Rate = 3200;
    private const int Seeds = 12;

    [Theory]
    [InlineData(50, 20e-6)]
    [InlineData(60, 100e-6)]
    [InlineData(120, 20e-6)]
    [InlineData(120, 100e-6)]
    [InlineData(120, 200e-6)]
    [InlineData(50, 400e-6)]
    [InlineData(120, 400e-6)]
    [InlineData(60, 1e-3)]
    public void Jitter_is_read_from_the_residual_and_its_loss_given_back(double hertz, double jitter)
    {
        // Loss: exp(−(2πfσ)²/2), the characteristic function of the normal distribution; at 60 Hz and 1 ms 0.9314049334 is left, at 120 Hz and 20 µs 0.99988630862.
        double mean = 0, inside = 0, found = 0;
        for (var seed = 1; seed <= Seeds; seed++)
        {
            var capture = Capture(hertz, seed);
            var result = Jittered(capture, jitter, seed);
            var off = result.Report.Stroke.Stroke!.Value / capture.Truth() - 1;
            mean += off / Seeds;
            inside += Math.Abs(off) * capture.Truth() <= UnevenCapture.OwnUncertainty(result) ? 1 : 0;
            found += (result.Report.Jitter!.Seconds ?? 0) / Seeds;
        }

        output.WriteLine($"{hertz} Hz {1e6 * jitter} µs: mean off {100 * mean:0.00000} %, inside {inside} of {Seeds}, found {1e6 * found:0.0} µs, loss {100 * (1 - TimingJitter.Share(hertz, jitter)):0.0000} %");
        Assert.InRange(Math.Abs(mean), 0, jitter <= 200e-6 ? 5e-4 : 3e-3);
        Assert.InRange(inside, Seeds - 2, Seeds);
        Assert.Equal(1, found / jitter, 0.05);
    }

    [Theory]
    [InlineData(0.1)]
    [InlineData(3)]
    [InlineData(15)]
    public void Without_jitter_nothing_is_given_back_however_loud_the_noise(double noise)
    {
        for (var seed = 1; seed <= 6; seed++)
        {
            var capture = Capture(60, seed) with { Noise = noise };
            var result = Jittered(capture, 0, seed);
            Assert.Equal(0, result.Report.Jitter!.Correction);
            Assert.Null(result.Report.Jitter.Seconds);
            Assert.InRange(Math.Abs(result.Report.Stroke.Stroke!.Value - capture.Truth()), 0, 1.5 * UnevenCapture.OwnUncertainty(result));
        }
    }

    [Fact]
    public void A_phase_that_wanders_slowly_is_no_jitter()
    {
        // 0.05 rad at 17 Hz: what neighbouring samples share.
        var capture = Capture(60, 3) with { Cycles = time => 60 * time + 0.05 / (2 * Math.PI) * Math.Sin(2 * Math.PI * 17 * time) };
        var result = Jittered(capture, 0, 3);

        Assert.Equal(0, result.Report.Jitter!.Correction);
    }

    [Fact]
    public void Jitter_that_the_stamps_tell_is_not_given_back_a_second_time()
    {
        var random = new Random(8);
        var capture = new UnevenCapture { Hertz = 120, Stroke = 0.5e-3 };
        var result = capture.Replay(Enumerable.Range(0, 12_800).Select(i => (i + 0.25 * Signal.Gauss(random)) / Rate));

        Assert.Equal(StampUse.Used, StampUses.Of(result.Source, result.Report));
        Assert.Equal(0, result.Report.Jitter!.Correction);
        Assert.Equal(capture.Truth(), result.Report.Stroke.Stroke!.Value, 1.5 * UnevenCapture.OwnUncertainty(result));
    }

    [Fact]
    public void A_jitter_given_in_the_feeder_file_stands_and_the_signal_is_not_asked()
    {
        var capture = Capture(120, 5) with { TimingJitter = 200e-6 };
        var result = Jittered(capture, 200e-6, 5);

        Assert.Null(result.Report.Jitter);
        Assert.Equal(TimingJitter.Share(120, 200e-6), result.Report.Stroke.Fundamental!.Value / capture.Stroke, 2e-3);
        Assert.Contains(result.Report.Stroke.Budget!.Components, part => part.Name == StrokeContributions.TimingJitter && part.Basis.Contains("feeder file", StringComparison.Ordinal));
    }

    private static UnevenCapture Capture(double hertz, int seed) =>
        new() { Hertz = hertz, Seed = seed, Stroke = hertz > 100 ? 0.5e-3 : 1.7e-3, Options = new() { RateHz = Rate } };

    private static ReplayResult Jittered(UnevenCapture capture, double jitter, int seed)
    {
        var random = new Random(1000 + seed);
        return capture.Replay(Enumerable.Range(0, 12_800).Select(i => i / Rate + jitter * Signal.Gauss(random)), stamped: false);
    }
}
