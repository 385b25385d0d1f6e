using StrokeWatch.Measurement.Impacts;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

/// <summary>Where a fundamental of steady frequency is expected, and by how much it is ahead.</summary>
public sealed class PhaseTrackTests
{
    private const double Hertz = 49.973, Window = 0.5;

    [Fact]
    public void A_steady_supply_finds_every_window_where_it_was_expected()
    {
        var track = new PhaseTrack();
        for (var n = 0; n < 30; n++)
        {
            track.Take(n * Window, Phase(n), Hertz);
            var lead = track.Of((n + 1) * Window, Phase(n + 1), Hertz);
            Assert.Equal(0, lead.OfLast, 1e-9);
            Assert.Equal(0, lead.OfEarlier, 1e-9);
            Assert.Equal((Window, 0), (lead.Seconds, lead.Hertz));
        }
    }

    /// <summary>What begins in the middle of a window moves its phase and its frequency; the window before it still tells what the next one is ahead by.</summary>
    [Fact]
    public void A_shift_is_told_by_the_window_before_the_one_in_which_it_began()
    {
        var track = new PhaseTrack();
        for (var n = 0; n < 4; n++)
        {
            track.Take(n * Window, Phase(n), Hertz);
        }

        track.Take(4 * Window, Phase(4) + 0.05, Hertz + 0.04);
        var lead = track.Of(5 * Window, Phase(5) + 0.1, Hertz);
        Assert.Equal(0.1, lead.OfEarlier, 1e-9);
        Assert.True(Math.Abs(lead.OfLast - 0.1) > 0.04, $"by the last window {lead.OfLast} rad");
    }

    /// <summary>A grid whose frequency runs away by 2 mHz a second, for a minute: the mean over four windows lags by a second and a half, the step of a second adds half of one, so that 25 mrad are off (126 by a mean of twenty).</summary>
    [Fact]
    public void A_grid_that_wanders_is_followed()
    {
        const double Drift = 0.002;
        var track = new PhaseTrack();
        for (var n = 0; n < 120; n++)
        {
            track.Take(n * Window, At(n), Hertz + (Drift * n * Window));
        }

        Assert.Equal(2 * Math.PI * Drift * 2, track.Of(120 * Window, At(120), Hertz + (Drift * 120 * Window)).OfEarlier, 1e-4);

        static double At(int window) => Phase(window) + (Math.PI * Drift * window * Window * window * Window);
    }

    [Fact]
    public void A_line_turned_about_and_whole_cycles_change_nothing()
    {
        var track = new PhaseTrack();
        track.Take(0, Phase(0), Hertz);
        track.Take(Window, Phase(1) + (14 * Math.PI), Hertz);
        track.Turn();
        var lead = track.Of(2 * Window, Phase(2) + Math.PI + 0.02, Hertz);
        Assert.Equal((0.02, 0.02), (lead.OfLast, lead.OfEarlier), (a, b) => Math.Abs(a.Item1 - b.Item1) < 1e-9 && Math.Abs(a.Item2 - b.Item2) < 1e-9);
    }

    [Fact]
    public void What_was_forgotten_is_not_asked()
    {
        var track = new PhaseTrack();
        track.Take(0, 1, 60);
        track.Take(Window, 2, 60);
        track.Clear();
        track.Take(100, Phase(200), Hertz);
        Assert.Equal(0, track.Of(100.5, Phase(201), Hertz).OfEarlier, 1e-9);
    }

    private static double Phase(int window) => 0.3 + (2 * Math.PI * Hertz * window * Window);
}
