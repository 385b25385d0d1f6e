using System.Text.Json.Nodes;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Page;
using StrokeWatch.Page.Waves;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Page.Waves;

/// <summary>Path and orders of a motion that is known in closed form: x = X cos φ + X₂ cos 2φ, z = Z sin φ, so that a = −(2πkf)² x order by order.</summary>
public sealed class WaveLookTests
{
    private const double Rate = 4000;
    private const double Hz = 50;
    private const double X = 0.8e-3;
    private const double Second = 0.02e-3;
    private const double Z = 0.3e-3;

    private static readonly FeederDescription Feeder = new()
    {
        Name = "Sand feeder",
        Drive = new(Hz, 1, Free: false),
        Band = new(Length.FromMillimetres(1.5), Length.FromMillimetres(1.8), Length.FromMillimetres(1.9)),
    };

    private static readonly WindowReading Running = new()
    {
        StartSeconds = 0,
        LengthSeconds = 0.5,
        Quality = WindowQuality.Good,
        Motion = MotionState.Running,
        StrokeMetres = 1.7e-3,
        FrequencyHz = Hz,
    };

    [Fact]
    public void The_path_is_the_motion_and_its_fundamental_the_ellipse()
    {
        var path = Json(WaveJson.Path, Look(Running));
        var (x, z) = (Values(path, 0, "displacement_mm"), Values(path, 1, "displacement_mm"));
        Assert.Equal(180, x.Length);
        Assert.Equal(2e3 * X, x.Max() - x.Min(), 2e-3);
        Assert.Equal(2e3 * Z, z.Max() - z.Min(), 2e-3);

        // The ellipse of the fundamental: (x/X)² + (z/Z)² = 1 at every point.
        var (ex, ez) = (Values(path, 0, "fundamental_mm"), Values(path, 1, "fundamental_mm"));
        Assert.All(ex.Zip(ez), point => Assert.Equal(1, Math.Pow(point.First / (1e3 * X), 2) + Math.Pow(point.Second / (1e3 * Z), 2), 3e-3));
        Assert.Equal((double)path["stroke_mm"]! / 25.4, (double)path["stroke_in"]!, 6);
    }

    [Fact]
    public void The_orders_are_the_amplitudes_put_in_and_between_them_is_nothing()
    {
        var orders = Json(WaveJson.Orders, Look(Running))["orders"]!.AsArray();
        double Of(double order) => (double)orders.Single(one => (double)one!["order"]! == order)!["amplitude_m_s2"]!;
        var omega = 2 * Math.PI * Hz;
        Assert.Equal(X * omega * omega, Of(1), 0.02 * X * omega * omega);
        Assert.Equal(4 * Second * omega * omega, Of(2), 0.03 * 4 * Second * omega * omega);
        Assert.InRange(Of(1.5), 0, 0.01);
        Assert.InRange(Of(3), 0, 0.01);
    }

    [Fact]
    public void The_waveform_holds_at_most_so_many_columns_and_none_of_its_peaks_is_lost()
    {
        var look = Look(Running);
        var wave = Json((writer, one) => WaveJson.Waveform(writer, one, 1, 100), look);
        Assert.Equal((100, 40), (Values(wave, 0, "least_m_s2").Length, (int)wave["samples_per_column"]!));
        Assert.Equal(look.Samples[0].Max(), Values(wave, 0, "most_m_s2").Max(), 1e-3);
        Assert.Equal(look.Samples[0].Min(), Values(wave, 0, "least_m_s2").Min(), 1e-3);
        var close = Json((writer, one) => WaveJson.Waveform(writer, one, 0.02, 2000), look);
        Assert.Equal(look.Samples[1][^80..].Select(value => Math.Round(value, 3)), Values(close, 1, "most_m_s2"));
    }

    [Fact]
    public void A_feeder_that_stands_and_a_sensor_that_is_silent_give_a_reason_and_no_numbers()
    {
        var still = Look(Running with { Motion = MotionState.Stopped, StrokeMetres = null });
        Assert.Equal("the feeder stands still", still.Reason);
        Assert.Empty(Json(WaveJson.Path, still)["axes"]!.AsArray());
        var silent = WaveLook.Of(Feeder, null, null, Running, default);
        Assert.Contains("silent", silent.Reason, StringComparison.Ordinal);
        Assert.Null(Json((writer, one) => WaveJson.Waveform(writer, one, 1, 100), silent)["rate_hz"]);
        Assert.Empty(Json(WaveJson.Orders, silent)["orders"]!.AsArray());
    }

    private static WaveLook Look(WindowReading window)
    {
        var omega = 2 * Math.PI * Hz;
        var phase = Enumerable.Range(0, (int)Rate).Select(n => 2 * Math.PI * Hz * n / Rate).ToList();
        double[] x = [.. phase.Select(p => -omega * omega * (X * Math.Cos(p) + 4 * Second * Math.Cos(2 * p)))];
        double[] z = [.. phase.Select(p => 9.81 - omega * omega * Z * Math.Sin(p))];
        return WaveLook.Of(Feeder, new(new() { Format = "frames", Axes = [Axis.X, Axis.Z], RateHz = Rate }, Rate, [x, z], new SampleMarks[x.Length]), null, window, default);
    }

    private static JsonNode Json(Action<System.Text.Json.Utf8JsonWriter, WaveLook> write, WaveLook look) => JsonNode.Parse(PageJson.Bytes(writer =>
    {
        writer.WriteStartObject();
        write(writer, look);
        writer.WriteEndObject();
    }).Span)!;

    private static double[] Values(JsonNode document, int axis, string name) => [.. document["axes"]![axis]![name]!.AsArray().Select(value => (double)value!)];
}
