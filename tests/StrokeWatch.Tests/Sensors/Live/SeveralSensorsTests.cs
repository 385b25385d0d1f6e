using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Decoding;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Serial;
using StrokeWatch.Tests.Sensors.Frames;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Live;

/// <summary>A live source of a device with several sensors on one clock.</summary>
public sealed class SeveralSensorsTests
{
    private readonly MemoryLink link = new();
    private readonly List<SensorEvent> events = [];
    private readonly SampleBlock block = new(4, 64);

    [Fact]
    public void The_channels_are_those_wanted_of_each_sensor_and_the_marks_tell_the_sensors_apart()
    {
        using var source = Make([SensorPlace.Rear, SensorPlace.Body]);
        Assert.Equal([Axis.X, Axis.Z, Axis.X, Axis.Z], source.Info.Axes);
        Assert.Equal([SensorPlace.Rear, SensorPlace.Rear, SensorPlace.Body, SensorPlace.Body], source.Info.Places);
        link.Write(new TestStream(sensors: 2, several: true).Samples(20));
        Assert.Equal(SourceState.Samples, source.Read(block));
        Assert.Equal(20, block.Count);
        int[] sent = [0, 2, 3, 5];
        for (var channel = 0; channel < 4; channel++)
        {
            Assert.Equal(TestStream.Value(7, sent[channel]), block[channel][7]);
        }
    }

    [Fact]
    public void Another_number_of_sensors_than_configured_is_turned_down_and_said_once()
    {
        using var source = Make([SensorPlace.Front, SensorPlace.Rear]);
        link.Write([.. new TestStream(sensors: 3, several: true).Frames(3).SelectMany(frame => frame)]);
        Assert.Equal(SourceState.Nothing, source.Read(block));
        Assert.Equal(3, source.Counters.Rejected[RejectReasons.Name(RejectReason.Axes)]);
        var told = Assert.Single(events, happened => happened.Kind == SensorEventKind.Contradiction);
        Assert.Equal("the device sends 3 sensors, the configuration names 2 sensors; its samples are turned down: correct the places", told.Words);
    }

    [Fact]
    public void A_device_of_version_1_serves_a_single_place()
    {
        using var source = Make([SensorPlace.Front]);
        link.Write(new TestStream().Samples(5));
        Assert.Equal(SourceState.Samples, source.Read(new SampleBlock(2, 8)));
        Assert.Empty(source.Counters.Rejected);
    }

    [Fact]
    public void Lines_of_a_board_with_several_sensors_are_read_as_its_places_say()
    {
        link.Plug();
        using var source = LiveSensors.Make(
            new() { Protocol = LiveSensors.Lines, Axes = [Axis.X, Axis.Z], Places = [SensorPlace.Body, SensorPlace.Front], RateHz = 1000, FullScale = 20, Lines = new() { Unit = AccelerationUnit.MetresPerSecondSquared } },
            link, new FakeTimeProvider(), events.Add);
        link.Write(System.Text.Encoding.ASCII.GetBytes("\n1,2,3,4\n5,6,7,20\n"));
        Assert.Equal(SourceState.Samples, source.Read(block));
        Assert.Equal([SensorPlace.Body, SensorPlace.Body, SensorPlace.Front, SensorPlace.Front], source.Info.Places);
        Assert.Equal([5, 6, 7, 20], Enumerable.Range(0, 4).Select(channel => block[channel][1]));
        Assert.Equal([SampleMarks.None, SampleRun.ClippedMark(1, 2)], block.Marks.ToArray());
    }

    [Fact]
    public void A_place_given_twice_or_nine_places_are_refused()
    {
        Assert.Throws<ArgumentException>(() => Make([SensorPlace.Front, SensorPlace.Front]));
        Assert.Throws<ArgumentException>(() => Make([.. SensorPlaces.All.Take(9)]));
    }

    private LiveSensorSource Make(IReadOnlyList<SensorPlace> places)
    {
        link.Plug();
        return LiveSensors.Make(new() { Axes = [Axis.X, Axis.Z], Places = places }, link, new FakeTimeProvider(), events.Add);
    }
}
