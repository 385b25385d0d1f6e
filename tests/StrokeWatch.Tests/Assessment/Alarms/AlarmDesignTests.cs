using MathNet.Numerics.Distributions;
using StrokeWatch.Assessment.Alarms;
using Xunit;

namespace StrokeWatch.Tests.Assessment.Alarms;

public sealed class AlarmDesignTests
{
    /// <summary>Runs of Bernoulli trials (textbook); the numbers worked out independently, with Q the normal distribution's upper tail.</summary>
    [Theory]
    [InlineData(3, 1, 740.79669469)]
    [InlineData(2, 2, 1976.067177)]
    [InlineData(2, 3, 86903.547704)]
    [InlineData(1, 3, 296.43178642)]
    [InlineData(1, 5, 11822.520097)]
    public void The_mean_time_to_so_many_exceedances_running_is_that_of_Bernoulli_trials(double sigmas, int running, double windows) =>
        Assert.Equal(windows, AlarmDesign.MeanWindows(Normal.CDF(0, 1, -sigmas), running), 1e-8 * windows);

    /// <summary>Framework of Xu, Wang, Izadi and Chen, IEEE T-ASE 9(2), 2012 (abstract); the numbers from a Markov chain solved independently.</summary>
    [Theory]
    [InlineData(0.1, 1, 1, 0.1)]
    [InlineData(0.1, 3, 3, 0.003337849489)]
    [InlineData(0.1, 3, 5, 0.006209033886)]
    [InlineData(0.1, 5, 5, 6.241251887e-05)]
    [InlineData(0.2, 3, 3, 0.02982885086)]
    public void The_share_of_time_in_false_alarm_is_that_of_the_Markov_chain(double p, int on, int off, double share) =>
        Assert.Equal(share, AlarmDesign.FalseShare(p, on, off), 1e-9 * share);

    [Fact]
    public void The_alarm_itself_stands_falsely_as_often_as_the_formula_says()
    {
        var random = new Random(11);
        var alarm = new DelayedAlarm(3, 5);
        long stood = 0;
        const int Windows = 4_000_000;
        for (var i = 0; i < Windows; i++)
        {
            alarm.Step(random.NextDouble() < 0.2, 1);
            stood += alarm.Active ? 1 : 0;
        }

        // Some 30,000 activations: the share scatters by about a per cent.
        Assert.Equal(AlarmDesign.FalseShare(0.2, 3, 5), stood / (double)Windows, 0.03 * AlarmDesign.FalseShare(0.2, 3, 5));
    }

    [Fact]
    public void The_tables_delays_keep_noise_at_a_deadband_from_the_bounds_from_raising_alarms_as_its_remark_says()
    {
        var table = AlarmTable.Of(new());
        var p = Normal.CDF(0, 1, -3);
        int Windows(AlarmKind kind) => (int)Math.Ceiling(table[kind].OnSeconds / 0.5);
        Assert.Equal((2, 4), (Windows(AlarmKind.OverStroke), Windows(AlarmKind.HighStroke)));
        Assert.InRange(AlarmDesign.MeanWindows(p, 2), 5e5, 6e5);
        Assert.InRange(AlarmDesign.MeanWindows(p, 4), 2.9e11, 3.2e11);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(double.NaN)]
    public void A_probability_that_is_none_is_refused(double p) => Assert.Throws<ArgumentOutOfRangeException>(() => AlarmDesign.MeanWindows(p, 1));
}
