using System.Globalization;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.Supply;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Forwarding;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Sensors.Simulated;
using StrokeWatch.Tests.Outputs.Store;
using Xunit;
using static StrokeWatch.Tests.Outputs.Influx.InfluxBench;

namespace StrokeWatch.Tests.Outputs.Influx;

/// <summary>The supply's voltage beside a window, as it reaches the time-series server: all that was measured, and not a field more.</summary>
public sealed class SupplyFieldsTests : IDisposable
{
    private static readonly FeederDescription Feeder = DemoScenario.Feeder with { Supply = new() { FullVolts = 230 } };
    private static readonly SupplyReading Whole = new() { RmsVolts = 207, MainsVolts = 207, FundamentalVolts = 206.5, PhaseDegrees = -41.25, ConductionShare = 1 };
    private readonly InfluxBench bench = new() { FullStroke = window => SupplyNow.Of(window, Feeder).FullStroke };

    public void Dispose() => bench.Dispose();

    /// <summary>The pull goes with the square of the voltage (check-values 6.9): 1.62 mm at 90 % is 2 mm at full voltage.</summary>
    [Fact]
    public async Task A_window_with_a_voltage_brings_it_with_its_phase_and_the_stroke_at_full_voltage()
    {
        Assert.Equal(
            new() { ["supply_rms_v"] = 207, ["supply_mains_v"] = 207, ["supply_fundamental_v"] = 206.5, ["supply_phase_deg"] = -41.25, ["supply_conduction_share"] = 1, ["full_voltage_pp_mm"] = 2 },
            await Sent(StoreFolder.Reading(0, 1.62e-3) with { Supply = Whole }));
    }

    [Fact]
    public async Task A_window_without_a_voltage_brings_no_field_of_it() => Assert.Empty(await Sent(StoreFolder.Reading(0, 1.62e-3)));

    [Fact]
    public async Task A_voltage_that_was_missing_in_a_window_brings_no_field_of_it() =>
        Assert.Empty(await Sent(StoreFolder.Reading(0, 1.62e-3) with { Supply = new() { Reason = "samples of the voltage are missing" } }));

    [Theory]
    [InlineData("stopped")]
    [InlineData("strike")]
    [InlineData("no sine")]
    public async Task Where_the_law_does_not_hold_the_voltage_comes_alone(string what)
    {
        var reading = StoreFolder.Reading(0, 1.62e-3) with { Supply = what == "no sine" ? Whole with { ConductionShare = null } : Whole, Strike = what == "strike", Motion = what == "stopped" ? MotionState.Stopped : MotionState.Running };
        var sent = await Sent(reading);
        Assert.Equal(207, sent["supply_mains_v"]);
        Assert.DoesNotContain("full_voltage_pp_mm", sent.Keys);
    }

    /// <summary>A converter beside the sensor reads nothing but the root mean square; that its waveform is unknown must not be taken for one that is no sine.</summary>
    [Fact]
    public async Task A_converter_s_root_mean_square_alone_brings_the_stroke_to_full_voltage_after_the_store_too()
    {
        Assert.Equal(
            new() { ["supply_rms_v"] = 207, ["supply_mains_v"] = 207, ["full_voltage_pp_mm"] = 2 },
            await Sent(StoreFolder.Reading(0, 1.62e-3) with { Supply = new() { RmsVolts = 207, MainsVolts = 207, RmsAlone = true } }));
        using var reader = new StoreReader(bench.Database);
        Assert.True(reader.LastWindow()!.Reading.Supply!.Value.RmsAlone);
    }

    [Fact]
    public async Task Windows_with_and_without_a_voltage_all_arrive_once_and_in_order()
    {
        using var server = new FakeInflux();
        for (var i = 0; i < 250; i++)
        {
            bench.Store.Window(Noon.AddSeconds(i), StoreFolder.Reading(i, 1.62e-3) with { Supply = i % 3 == 0 ? Whole : null });
        }

        bench.Forward(server.Url);
        await bench.Settle();
        Assert.Equal(Enumerable.Range(1, 250).Select(id => (long)id), server.Ids("window"));
        Assert.Equal(Enumerable.Range(0, 250).Select(i => i % 3 == 0), server.Kept.Select(line => line.Contains("supply_rms_v=", StringComparison.Ordinal)));
        Assert.Equal((250L, 0L, 0L), (bench.Health.Sent, bench.Health.Held, bench.Health.Gone));
    }

    [Fact]
    public void A_file_of_a_version_without_voltages_gives_its_windows_all_the_same()
    {
        bench.Store.Windows(Noon, 3);
        bench.Store.Run("DROP TABLE window_supply");
        var rows = new WaitingRows(bench.Database).After("window", RowPlace.Start, 10, RowsBeside.Supply).Rows;
        Assert.Equal([1, 2, 3], rows.Select(row => row.Id));
    }

    private async Task<Dictionary<string, double>> Sent(WindowReading reading)
    {
        using var server = new FakeInflux();
        bench.Store.Window(Noon, reading);
        bench.Forward(server.Url);
        await bench.Settle();
        var line = Assert.Single(server.Kept);
        var fields = line["strokewatch_window,feeder=Sand\\ feeder ".Length..line.LastIndexOf(' ')].Split(',').Select(field => field.Split('=')).ToDictionary(parts => parts[0], parts => parts[1]);
        return fields.Where(field => field.Key.StartsWith("supply", StringComparison.Ordinal) || field.Key.StartsWith("full", StringComparison.Ordinal))
            .ToDictionary(field => field.Key, field => double.Parse(field.Value, CultureInfo.InvariantCulture));
    }
}
