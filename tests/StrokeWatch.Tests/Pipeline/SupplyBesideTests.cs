using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Supply;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Converters;
using StrokeWatch.Tests.Sensors.Converters;
using Xunit;

namespace StrokeWatch.Tests.Pipeline;

/// <summary>The voltage of a converter beside the sensor, in the windows that come of the sensor.</summary>
[Collection(Undisturbed.Name)]
public sealed class SupplyBesideTests : IChainListener
{
    private static readonly FeederDescription Feeder = new()
    {
        Name = "Cullet feeder",
        Drive = new(50, 1, false),
        Band = new(Length.FromMillimetres(1.65), Length.FromMillimetres(1.78), Length.FromMillimetres(1.90)),
        Supply = new() { FullVolts = 230, VoltsPerUnit = 216.2 * Math.Sqrt(2) },
    };

    private AssessedWindow heard;

    [Fact]
    public async Task A_window_without_a_voltage_of_its_own_gets_the_converter_s_and_no_phase_is_invented()
    {
        var began = TimeProvider.System.GetTimestamp();
        var chip = new EmulatedAds(_ => 1.65 + Math.Sin(2 * Math.PI * 50 * TimeProvider.System.GetElapsedTime(began).TotalSeconds));
        var settings = new ConverterSettings { Model = ConverterModel.Find("ads1115")!, Device = "/dev/none", SpeedHz = 400_000, RangeVolts = 4.096, RateHz = 800, MainsHz = 50 };
        using var meter = new SupplyMeter(settings, one => new Ads1115Driver(chip, one), TimeProvider.System, _ => { });
        var beside = new SupplyBeside(meter, Feeder.Supply!.VoltsPerUnit, this);
        beside.Window(Window(null));
        Assert.Equal((null, "no whole second has been read yet"), (heard.Reading.Supply!.Value.RmsVolts, heard.Reading.Supply.Value.Reason));
        for (var i = 0; i < 2400 && meter.Trouble is not null; i++)
        {
            await Task.Delay(25);
        }

        beside.Window(Window(null));
        var supply = heard.Reading.Supply!.Value;
        Assert.Equal(216.2, supply.RmsVolts!.Value, 4.0);
        Assert.Equal((null, null), (supply.PhaseDegrees, supply.FiringDegrees));
        var now = SupplyNow.Of(heard.Reading, Feeder);
        Assert.Equal(1.515 / 0.94 / 0.94, now.FullStroke!.Value * 1e3, 0.08);

        var builder = new ReportBuilder(Feeder);
        for (var i = 0; i < 4; i++)
        {
            builder.Add(heard);
        }

        var report = builder.Build(KnownContributions.For(Feeder, new() { Format = "frames", Axes = [] }));
        Assert.Equal(216.2, report.Supply!.Volts!.Value, 4.0);
        Assert.NotNull(report.Supply.FullStroke);

        // A device that takes the voltage with its samples knows more.
        beside.Window(Window(new() { RmsVolts = 231, PhaseDegrees = 60 }));
        Assert.Equal((231, 60), (heard.Reading.Supply!.Value.RmsVolts, heard.Reading.Supply.Value.PhaseDegrees));
    }

    void IChainListener.Window(in AssessedWindow window) => heard = window;

    void IChainListener.Decay(in DecayReading decay)
    {
    }

    void IChainListener.Alarm(in AlarmTransition transition)
    {
    }

    private static AssessedWindow Window(SupplyReading? supply) => new(
        new()
        {
            StartSeconds = 0,
            LengthSeconds = 0.5,
            Quality = WindowQuality.Good,
            Motion = MotionState.Running,
            StrokeMetres = 1.515e-3,
            FundamentalMetres = 1.515e-3,
            UncertaintyMetres = 3e-5,
            NoiseMetres = 1e-7,
            FrequencyHz = 50,
            Supply = supply,
        },
        Verdict.Low);
}
