using StrokeWatch.Sensors.Simulated;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Simulated;

public sealed class SimulatedStrikeTests
{
    [Theory]
    [InlineData(0.1, 1)]
    [InlineData(0.5, 2)]
    [InlineData(1.0, 3)]
    public void Blows_come_as_hard_and_as_often_as_asked(double share, int every)
    {
        var run = Runs.Of(Runs.Clean with { Strike = new() { FromSeconds = 0.5, ToSeconds = 1.5, ForceShare = share, Every = every } });
        var strikes = run.Truth.Strikes;
        Assert.Equal(share, strikes.ForceShare, 0.01 * share);
        Assert.InRange(strikes.Contacts, (50 / every) - 1, (50 / every) + 1);
        Assert.InRange(strikes.FirstSeconds!.Value, 0.5, 0.5 + (every / 50.0) + 1e-3);
        Assert.True(strikes.LastSeconds < 1.5 + 1e-3);
    }

    [Fact]
    public void A_strike_in_every_second_cycle_brings_half_orders()
    {
        var every = Half(1);
        var second = Half(2);
        Assert.True(second > 20 * every, $"{second} against {every}");

        static double Half(int every)
        {
            var run = Runs.Of(Runs.Clean with { Strike = new() { ForceShare = 0.8, Every = every } });
            var fit = HarmonicFit.Fit(run.Z.AsSpan(3200, 3200), 25, 3200, 40);
            return Enumerable.Range(0, 20).Max(k => double.Hypot(fit.Cos[2 * k], fit.Sin[2 * k]));
        }
    }

    [Fact]
    public void A_gap_too_small_makes_armature_and_core_meet_by_themselves()
    {
        var wide = Runs.Of(Runs.Clean with { Feeder = Runs.Clean.Feeder with { RestGapMetres = 2.2e-3 } });
        var narrow = Runs.Of(Runs.Clean with { Feeder = Runs.Clean.Feeder with { RestGapMetres = 1.1e-3 } });
        Assert.Equal(0, wide.Truth.Strikes.Contacts);
        Assert.True(narrow.Truth.Strikes.Contacts > 30);
        Assert.True(narrow.Truth.Strikes.PeakNewtons > 0);
        Assert.True(narrow.Truth.Stroke!.PeakToPeak.Metres < wide.Truth.Stroke!.PeakToPeak.Metres);
    }

    [Fact]
    public void A_strike_rings_above_the_harmonics_and_phase_control_does_not()
    {
        static double Above(FeederScenario scenario)
        {
            var run = Runs.Of(scenario);
            var fit = HarmonicFit.Fit(run.Z.AsSpan(3200, 3200), 50, 3200, 30);
            return Enumerable.Range(19, 11).Max(k => double.Hypot(fit.Cos[k], fit.Sin[k]));
        }

        var healthy = Above(Runs.Clean);
        var cut = Above(Runs.Clean with { Supply = new() { FiringDegrees = 120 } });
        var struck = Above(Runs.Clean with { Strike = new() { ForceShare = 0.5 } });
        Assert.True(struck > 20 * healthy, $"{struck} against {healthy}");
        Assert.True(struck > 3 * cut, $"{struck} against {cut}");
    }

    [Fact]
    public void Material_knocks_at_random_without_a_contact()
    {
        var quiet = Runs.Of(Runs.Clean);
        var knocked = Runs.Of(Runs.Clean with { Material = new() { ImpactsPerSecond = 20, LoadKilograms = 1 } });
        Assert.Equal(0, knocked.Truth.Strikes.Contacts);
        var residuals = (HarmonicFit.Fit(quiet.Z.AsSpan(0, 3200), 50, 3200, 30).Residual, HarmonicFit.Fit(knocked.Z.AsSpan(0, 3200), 50, 3200, 30).Residual);
        Assert.True(residuals.Item2 > 20 * residuals.Item1, residuals.ToString());
        Assert.True(knocked.Truth.NaturalHz < quiet.Truth.NaturalHz);
    }
}
