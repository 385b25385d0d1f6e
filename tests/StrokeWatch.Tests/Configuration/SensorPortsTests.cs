using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Configuration;

/// <summary>The daemon's configuration with several sensors: on one device, or on ports of their own.</summary>
public sealed class SensorPortsTests : IDisposable
{
    private readonly ConfigurationFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void One_device_may_serve_all_places_in_the_order_in_which_it_sends_them()
    {
        var watch = Read(["front", "rear", "body"], """
            [sensor]
            port = "/dev/ttyACM0"
            protocol = "frames"
            full_scale_g = 20
            places = ["body", "front", "rear"]
            """).Value!;
        Assert.Equal([SensorPlace.Body, SensorPlace.Front, SensorPlace.Rear], Assert.Single(watch.Ports).Sensor.Places);
        Assert.Equal([SensorPlace.Front, SensorPlace.Rear, SensorPlace.Body], watch.Feeder.Sensors.Select(sensor => sensor.Place));
        Assert.All(watch.Feeder.Sensors, sensor => Assert.Equal(20 * Gravity.Standard, sensor.Sensor.FullScale));
    }

    [Fact]
    public void Each_sensor_may_have_a_port_of_its_own()
    {
        var watch = Read(["front", "rear", "body"], """
            [[sensor]]
            port = "/dev/front"
            protocol = "frames"
            place = "front"
            full_scale_g = 8
            [[sensor]]
            port = "/dev/both"
            protocol = "lines"
            unit = "g"
            axes = "xz"
            places = ["rear", "body"]
            """).Value!;
        Assert.Equal(["/dev/front", "/dev/both"], watch.Ports.Select(port => port.Port.Path));
        Assert.Equal([SensorPlace.Rear, SensorPlace.Body], watch.Ports[1].Sensor.Places);
        Assert.Equal([8 * Gravity.Standard, null, null], watch.Feeder.Sensors.Select(sensor => sensor.Sensor.FullScale));
    }

    [Theory]
    [InlineData("front rear", "[sensor]\nport = \"/dev/a\"\nprotocol = \"frames\"", "2: the feeder file lists several sensors (front, rear); `place`, or `places`")]
    [InlineData("", "[sensor]\nport = \"/dev/a\"\nprotocol = \"frames\"\nplace = \"front\"", "2: a place is given, but the feeder file lists no sensors")]
    [InlineData("", "[[sensor]]\nport = \"/dev/a\"\nprotocol = \"frames\"\n[[sensor]]\nport = \"/dev/b\"\nprotocol = \"frames\"", "2: several tables [[sensor]], but the feeder file lists no sensors")]
    [InlineData("front rear", "[sensor]\nport = \"/dev/a\"\nprotocol = \"frames\"\nplace = \"front\"", "2: no port serves the place rear, which the feeder file lists")]
    [InlineData("front rear", "[sensor]\nport = \"/dev/a\"\nprotocol = \"frames\"\nplaces = [\"front\", \"rear\", \"left\"]", "2: the place left is not among the sensors of the feeder file, which are front, rear")]
    [InlineData("front", "[[sensor]]\nport = \"/dev/a\"\nprotocol = \"frames\"\nplace = \"front\"\n[[sensor]]\nport = \"/dev/b\"\nprotocol = \"frames\"\nplace = \"front\"", "2: the place front is given to several ports")]
    [InlineData("front rear", "[[sensor]]\nport = \"/dev/a\"\nprotocol = \"frames\"\nplace = \"front\"\n[[sensor]]\nport = \"/dev/a\"\nprotocol = \"frames\"\nplace = \"rear\"", "2: the port /dev/a stands in several tables")]
    [InlineData("front rear", "[sensor]\nport = \"/dev/a\"\nprotocol = \"frames\"\nplaces = [\"front\", \"middle\"]", "5: a name in `places` is no place")]
    [InlineData("front rear", "[sensor]\nport = \"/dev/a\"\nprotocol = \"frames\"\nplaces = [\"front\", \"front\"]", "5: a name in `places` is no place, or is given twice")]
    [InlineData("front", "[sensor]\nport = \"/dev/a\"\nprotocol = \"frames\"\nplaces = [\"front\"]\nplace = \"front\"", "5: `places` stands beside `place`")]
    [InlineData("front", "[[sensor]]\nport = \"/dev/a\"\nprotocol = \"frames\"\nplaze = \"front\"", "5: unknown key `plaze` in [sensor]; did you mean `place`?")]
    public void Each_mistake_is_one_line(string places, string tables, string expected)
    {
        var errors = Read(places.Split(' ', StringSplitOptions.RemoveEmptyEntries), tables).Errors.Select(error => $"{error.Line}: {error.Message}").ToList();
        Assert.Contains(errors, error => error.StartsWith(expected, StringComparison.Ordinal));
        Assert.All(errors, error => Assert.DoesNotContain('\n', error));
    }

    private ConfigurationResult<WatchConfiguration> Read(string[] places, string tables)
    {
        folder.Write("feeder.toml", Examples.Least + string.Concat(places.Select(place => $"\n[[sensors]]\nplace = \"{place}\"\n")));
        return WatchFile.Read(folder.Write("watch.toml", "feeder = \"feeder.toml\"\n" + tables + "\n[store]\npath = \"a.db\"\n"));
    }
}
