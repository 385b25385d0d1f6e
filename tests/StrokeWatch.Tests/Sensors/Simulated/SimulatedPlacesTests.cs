using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Simulated;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Simulated;

public sealed class SimulatedPlacesTests
{
    private static readonly FeederScenario Rocking = Runs.Clean with
    {
        Sensors = [new(SensorPlace.Front, 1.1, 6), new(SensorPlace.Rear, 0.9, -5), new(SensorPlace.Body), new(SensorPlace.Left, 1, 0, Reversed: true)],
    };

    [Fact]
    public void The_measured_strokes_phases_and_difference_are_those_of_the_machine()
    {
        using var source = new SimulatedFeederSource(Rocking);
        var (result, truth) = (Replay(source), source.Truth());
        var several = result.Report.Sensors!;
        Assert.Equal(4, truth.Sensors.Count);
        for (var i = 0; i < 4; i++)
        {
            Assert.Equal(truth.Sensors[i].PeakToPeak.Metres, several.Sensors[i].Stroke!.Value, 1e-3 * truth.Sensors[i].PeakToPeak.Metres);
            Assert.InRange(Math.Abs(Math.IEEERemainder(truth.Sensors[i].PhaseDegrees - several.Sensors[i].PhaseDegrees!.Value, 360)), 0, 0.1);
            Assert.Equal(truth.Sensors[i].LineAngleDegrees, several.Sensors[i].LineAngleDegrees!.Value, 0.1);
        }

        Assert.Equal(truth.Stroke!.PeakToPeak.Metres, result.Report.Stroke.Stroke!.Value, 1e-3 * truth.Stroke.PeakToPeak.Metres);
        Assert.Equal(-11, several.Sensors[1].PhaseDegrees!.Value, 0.2);
        Assert.Equal(174, Math.Abs(several.Sensors[3].PhaseDegrees!.Value), 0.2);
    }

    [Fact]
    public void Tray_against_body_is_what_the_two_masses_do()
    {
        var scenario = Rocking with { Sensors = [new(SensorPlace.Front), new(SensorPlace.Body)] };
        using var source = new SimulatedFeederSource(scenario);
        var (result, truth) = (Replay(source), source.Truth());
        var relative = result.Report.Sensors!.Relative;
        Assert.Equal(truth.Relative!.Value.Metres, relative.Stroke!.Value, 1e-3 * truth.Relative.Value.Metres);

        // Two free masses share the relative stroke as m₂ to m₁ (textbook, e.g. Den Hartog, from memory); soft mounts take little.
        var masses = new MassDescription(35, 70);
        Assert.Equal(truth.Stroke!.PeakToPeak.Metres * (1 + masses.TrayKilograms / masses.BodyKilograms), relative.Stroke.Value, 0.02 * relative.Stroke.Value);
    }

    [Fact]
    public void The_first_of_several_sensors_in_the_middle_reads_what_a_single_one_does()
    {
        var single = Runs.Of(Runs.Clean with { Sensor = new() });
        using var source = new SimulatedFeederSource(Runs.Clean with { Sensor = new(), Sensors = [new(SensorPlace.Left), new(SensorPlace.Right)] });
        var block = new SampleBlock(6, single.X.Length);
        Assert.Equal(SourceState.Samples, source.Read(block));
        Assert.Equal(single.X, block[0].ToArray());
        Assert.Equal(single.Z, block[2].ToArray());
        Assert.NotEqual(single.X, block[3].ToArray());
    }

    private static ReplayResult Replay(SimulatedFeederSource source)
    {
        var feeder = Rocking.Feeder with { Sensors = [.. source.Info.Places.Distinct().Select(place => new PlacedSensor(place, [], new()))] };
        return Replayer.Run("rocking", source, feeder, new AlarmDelays());
    }
}
