using System.Globalization;
using StrokeWatch.EndToEnd.Tests.Commands;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Reference;

public sealed class YardstickTests(ITestOutputHelper output) : IDisposable
{
    private readonly TempFolder folder = new();

    public void Dispose() => folder.Dispose();

    [SkippableTheory]
    [InlineData("steady-50hz", 50, 1)]
    [InlineData("steady-60hz", 60, 1)]
    [InlineData("steady-100hz", 50, 2)]
    [InlineData("steady-120hz", 60, 2)]
    [InlineData("low", 50, 1)]
    [InlineData("high", 60, 1)]
    [InlineData("over-stroke", 50, 1)]
    [InlineData("magnet-biased", 50, 1)]
    [InlineData("phase-cut", 50, 1)]
    public async Task An_independent_NumPy_measurement_agrees_within_0_3_per_cent(string name, double supplyHz, int strokesPerCycle)
    {
        await Yardstick.SkipWhereAbsent();
        var csv = folder.At("capture.csv");
        Yardstick.Convert(Repository.Capture(name), csv);
        var reference = await Yardstick.Measure(csv, supplyHz, strokesPerCycle);
        var replayed = await Running.Run(folder.Path, "replay", Repository.Capture(name), "--feeder", Repository.Feeder(name), "--json", "-");
        var stroke = replayed.Document()["stroke"]!;
        var (ours, theirs) = ((double)stroke["pp_mm"]!, (double)reference["pp_mm"]!);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name}: replay {ours:0.00000} mm, NumPy {theirs:0.00000} mm, {100 * (ours / theirs - 1):+0.000;-0.000} %"));
        Assert.InRange(ours / theirs, 0.997, 1.003);

        // A line has no sense: the yardstick may give its other end.
        var turned = (double)reference["line_angle_deg"]! - (double)stroke["line_angle_deg"]!;
        Assert.InRange(Math.IEEERemainder(turned, 180), -0.3, 0.3);
    }
}
