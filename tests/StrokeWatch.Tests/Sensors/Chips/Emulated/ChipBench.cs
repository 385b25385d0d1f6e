using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Chips;
using StrokeWatch.Sensors.Live;

namespace StrokeWatch.Tests.Sensors.Chips.Emulated;

/// <summary>An emulated chip, its bus, driver and live source on a fake clock that moves only while somebody waits.</summary>
internal sealed class ChipBench : IDisposable
{
    private readonly Lazy<LiveSensorSource> source;

    public ChipBench(string kind, ChipBus bus, double rateHz, double? rangeG = null, int? speedHz = null)
    {
        var model = ChipModels.Find(kind)!;
        Chip = Make(kind);
        Spi = new(() => Chip, model);
        Settings = new()
        {
            Model = model,
            Bus = bus,
            Device = bus == ChipBus.Spi ? "/dev/spidev0.0" : "/dev/i2c-1",
            Address = model.Addresses[0],
            SpeedHz = speedHz ?? (bus == ChipBus.Spi ? model.UsualSpiHz : 400_000),
            Range = rangeG is { } g ? model.RangeOf(g)!.Value : model.Ranges[^1],
            Rate = model.RateOf(rateHz)!.Value,
        };
        Opener = new(Settings, () => bus == ChipBus.Spi ? ChipDevices.Driver(Settings, Spi) : ChipDevices.Driver(Settings, new EmulatedI2c(() => Chip)), Time, Told.Add, Wait);
        source = new(() => new(Opener, new StrokeWatch.Sensors.Frames.FrameDecoder(counters), Info(), counters, Time, Events.Add, Wait));
    }

    private readonly SourceCounters counters = new();

    public FakeTimeProvider Time { get; } = new();

    public EmulatedChip Chip { get; set; }

    public EmulatedSpi Spi { get; }

    public ChipSettings Settings { get; }

    public ChipOpener Opener { get; }

    public List<string> Told { get; } = [];

    public List<SensorEvent> Events { get; } = [];

    public LiveSensorSource Source => source.Value;

    public SampleBlock Block { get; } = new(3, 512);

    public EmulatedChip Make(string kind) => kind switch
    {
        "adxl357" => new EmulatedAdxl357(Time),
        "kx134" => new EmulatedKx134(Time),
        _ => new EmulatedAdxl345(Time),
    };

    /// <summary>Reads until samples come, at most so many times.</summary>
    public bool Samples(int tries = 400)
    {
        while (tries-- > 0)
        {
            if (Source.Read(Block) == SourceState.Samples)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Reads until the source says that the sensor is lost.</summary>
    public bool Lost(int tries = 2000)
    {
        while (tries-- > 0)
        {
            if (Source.Read(Block) == SourceState.Lost)
            {
                return true;
            }
        }

        return false;
    }

    public void Wait(TimeSpan wait) => Time.Advance(wait > TimeSpan.Zero ? wait : TimeSpan.FromTicks(1));

    public void Dispose()
    {
        if (source.IsValueCreated)
        {
            Source.Dispose();
        }
    }

    private SourceInfo Info() => new()
    {
        Format = Settings.Model.Kind,
        Axes = [Axis.X, Axis.Y, Axis.Z],
        RateHz = Settings.Rate.Hz,
        RateFrom = RateOrigin.Sensor,
        FullScale = Settings.Range.FullScaleG * StrokeWatch.Samples.Quantities.Gravity.Standard,
    };
}
