using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;
using Xunit;
using static StrokeWatch.Tests.Pipeline.Ports.Devices;

namespace StrokeWatch.Tests.Pipeline.Ports;

/// <summary>Sensors on ports, and clocks, of their own: each is measured by itself, and they are judged together.</summary>
public sealed class JointMeasurementTests
{
    [Theory]
    [InlineData(0, 0)]
    [InlineData(0.01, -0.01)]
    [InlineData(-0.008, 0.003)]
    public void Clocks_that_are_off_by_a_per_cent_cost_no_stroke_and_the_mean_is_judged(double first, double second)
    {
        var heard = new Devices(Device.At(SensorPlace.Front, 1.76, first), Device.At(SensorPlace.Rear, 1.68, second, 2), Device.At(SensorPlace.Body, 0.85, 0.004, 3));
        heard.Play(60);
        Assert.Empty(heard.Alarms);
        Assert.InRange(heard.Windows.Count, 117, 121);
        foreach (var (window, shown) in heard.Windows.Skip(1).Zip(heard.Shown.Skip(1)))
        {
            Assert.Equal((WindowQuality.Good, Verdict.InBand), (window.Reading.Quality, window.Verdict));
            Assert.Equal(1.72, 1e3 * window.Reading.StrokeMetres!.Value, 2e-3);
            Assert.Equal((SensorPlace.Front, 1.76), (window.Reading.LargestPlace!.Value, Math.Round(1e3 * window.Reading.LargestMetres!.Value, 2)));
            Assert.Equal(1.76, 1e3 * shown.Sensors[0].Reading.StrokeMetres!.Value, 2e-3);
            Assert.Equal(1.68, 1e3 * shown.Sensors[1].Reading.StrokeMetres!.Value, 2e-3);
            Assert.Equal(0.85, 1e3 * shown.Sensors[2].Reading.StrokeMetres!.Value, 2e-3);
        }

        InOrder(heard);
    }

    [Fact]
    public void Phases_between_clocks_are_not_told_and_the_reason_is()
    {
        var heard = new Devices(Device.At(SensorPlace.Front, 1.76), Device.At(SensorPlace.Rear, 1.68, 0.002), Device.At(SensorPlace.Body, 0.85, -0.004));
        heard.Play(10);
        var several = heard.Report().Sensors!;
        Assert.Equal((true, 0.0), (several.Sensors[0].Leads, several.Sensors[0].PhaseDegrees!.Value));
        Assert.All(several.Sensors.Skip(1), sensor =>
        {
            Assert.Null(sensor.PhaseDegrees);
            Assert.Equal("it is sampled by a clock of its own: its phase against another clock is not known", sensor.PhaseReason);
            Assert.NotNull(sensor.Stroke);
        });
        Assert.Equal(0.08, 1e3 * several.FrontRear.Difference!.Value, 2e-3);
        Assert.Null(several.Relative.Stroke);
        Assert.Contains("clocks of their own", several.Relative.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Sensors_on_one_device_keep_their_phase_beside_a_device_of_its_own()
    {
        var heard = new Devices(
            new Device(0.003, 1).And(SensorPlace.Front, _ => 1.72).And(SensorPlace.Body, _ => -0.85),
            Device.At(SensorPlace.Rear, 1.70, -0.003, 2));
        heard.Play(10);
        var several = heard.Report().Sensors!;
        Assert.Equal(180, Math.Abs(several.Sensors.Single(sensor => sensor.Place == SensorPlace.Body).PhaseDegrees!.Value), 0.5);
        Assert.Null(several.Sensors.Single(sensor => sensor.Place == SensorPlace.Rear).PhaseDegrees);
        Assert.Equal(1.72 + 0.85, 1e3 * several.Relative.Stroke!.Value, 3e-3);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void A_silent_sensor_is_its_own_alarm_while_the_others_go_on(int silent)
    {
        Device[] devices = [Device.At(SensorPlace.Front, 1.70, 0.004), Device.At(SensorPlace.Rear, 1.74, -0.002, 2), Device.At(SensorPlace.Body, 0.85, 0, 3)];
        var name = silent == 0 ? "front" : "rear";
        var heard = new Devices(devices);
        heard.Play(10.3);
        devices[silent].Silent = true;
        heard.Play(10);
        var alarm = Assert.Single(heard.Alarms);
        Assert.Equal((AlarmKind.SensorLost, true), (alarm.Kind, alarm.Raised));
        Assert.Equal(silent == 0 ? SensorPlace.Front : SensorPlace.Rear, alarm.Place);
        Assert.Equal($"Sensor {name} lost: nothing comes from it. The others are measured on. Check its cable and supply.", alarm.Words);
        Assert.InRange(alarm.AtSeconds, 12.2, 12.7);

        // No window is missing for longer than the pace takes to pass on, and the other's own stroke stands.
        Assert.InRange(heard.HeardAt.Zip(heard.HeardAt.Skip(1), (one, next) => next - one).Max(), 0.4, 1.8);
        Assert.Equal(silent == 0 ? 1.74 : 1.70, 1e3 * heard.Windows[^1].Reading.StrokeMetres!.Value, 2e-3);
        Assert.Null(heard.Windows[^1].Reading.FailingPlace);

        devices[silent].Silent = false;
        heard.Play(5);
        Assert.Equal(2, heard.Alarms.Count);
        Assert.Equal((false, $"Sensor {name} is back."), (heard.Alarms[1].Raised, heard.Alarms[1].Words));
        Assert.Equal(1.72, 1e3 * heard.Windows[^1].Reading.StrokeMetres!.Value, 2e-3);
        InOrder(heard);
    }

    [Fact]
    public void All_silent_is_an_alarm_of_each_and_a_gap()
    {
        Device[] devices = [Device.At(SensorPlace.Front, 1.70), Device.At(SensorPlace.Rear, 1.74, 0.002, 2)];
        var heard = new Devices(devices);
        heard.Play(5);
        Array.ForEach(devices, device => device.Silent = true);
        heard.Play(6);
        Assert.Equal([SensorPlace.Front, SensorPlace.Rear], heard.Alarms.Select(alarm => alarm.Place!.Value).Order());
        Assert.Contains("Nothing is measured.", heard.Alarms[1].Words, StringComparison.Ordinal);
        Array.ForEach(devices, device => device.Silent = false);
        heard.Play(5);
        Assert.Equal(4, heard.Alarms.Count);
        var gap = Assert.Single(heard.Windows, window => window.Reading.Quality == WindowQuality.Gap);
        Assert.InRange(gap.Reading.LengthSeconds, 5.4, 6.6);
        Assert.Equal(Verdict.InBand, heard.Windows[^1].Verdict);
        InOrder(heard);
    }

    [Fact]
    public void A_body_left_alone_gives_no_stroke_and_no_verdict()
    {
        Device[] devices = [Device.At(SensorPlace.Front, 1.70), Device.At(SensorPlace.Body, 0.85, 0.002, 2)];
        var heard = new Devices(devices);
        heard.Play(5);
        devices[0].Silent = true;
        heard.Play(10);
        Assert.Equal(AlarmKind.SensorLost, Assert.Single(heard.Alarms).Kind);
        Assert.Contains("Nothing is measured.", heard.Alarms[0].Words, StringComparison.Ordinal);
        Assert.All(heard.Windows.TakeLast(10), window => Assert.Equal((null, Verdict.Unmeasurable), (window.Reading.StrokeMetres, window.Verdict)));
    }

    [Fact]
    public void The_largest_stroke_is_held_against_the_limit_whichever_sensor_leads()
    {
        var rising = new Device(-0.005, 2).And(SensorPlace.Rear, time => time < 8 ? 1.80 : 1.96);
        var heard = new Devices(Device.At(SensorPlace.Front, 1.60, 0.005), rising);
        heard.Play(14);
        var over = Assert.Single(heard.Alarms);
        Assert.Equal((AlarmKind.OverStroke, true), (over.Kind, over.Raised));
        Assert.Contains("at the sensor rear", over.Words, StringComparison.Ordinal);
        Assert.Null(over.Place);

        // Two windows of the sensor, and at most one of the sensor that sets the pace.
        Assert.InRange(over.AtSeconds, 8.9, 10.1);
    }

    [Fact]
    public void A_stop_is_read_once_and_by_the_hosts_time()
    {
        double Stroke(double time) => time < 10 ? 1.72 : 1.72 * Math.Exp(-(time - 10) / 0.25);
        var heard = new Devices(new Device(0.003, 1).And(SensorPlace.Front, Stroke), new Device(-0.006, 2).And(SensorPlace.Rear, Stroke));
        heard.Play(16);
        Assert.Equal(10, Assert.Single(heard.Decays).StartSeconds, 0.2);
        Assert.Equal(Verdict.Stopped, heard.Windows[^1].Verdict);
    }

    private static void InOrder(Devices heard)
    {
        foreach (var (one, next) in heard.Windows.Zip(heard.Windows.Skip(1)))
        {
            Assert.True(one.Reading.StartSeconds + one.Reading.LengthSeconds <= next.Reading.StartSeconds + 1e-9, $"{one.Reading.StartSeconds} + {one.Reading.LengthSeconds} > {next.Reading.StartSeconds}");
        }

        Assert.Equal(heard.Alarms.Select(alarm => alarm.AtSeconds).Order(), heard.Alarms.Select(alarm => alarm.AtSeconds));
    }
}
