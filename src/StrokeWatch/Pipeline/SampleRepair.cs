using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Calibration;

namespace StrokeWatch.Pipeline;

/// <summary>Prepares a block for the meter, in place: of several sensors it marks which one stands at its rail, and a calibrated sensor's samples are corrected.</summary>
internal sealed class SampleRepair
{
    /// <summary>A sample this near the full scale is at the rail, as the sources themselves mark it.</summary>
    private const double Rail = 0.999;

    private readonly MeterSettings asRead;
    private readonly double? numberRail;
    private readonly SampleCorrection?[] corrections;
    private readonly int[] order = [];

    /// <summary>Makes it for a feeder and the settings of its samples as they are read.</summary>
    /// <param name="feeder">The feeder, whose sensors may be calibrated.</param>
    /// <param name="settings">The settings, full scales as the sensors read.</param>
    /// <param name="numberRail">The size in m/s² at which the source's own range of numbers ends; null where it does not.</param>
    public SampleRepair(FeederDescription feeder, MeterSettings settings, double? numberRail = null)
    {
        asRead = settings;
        this.numberRail = numberRail;
        if (settings.Stations.Count == 0)
        {
            corrections = [feeder.Sensor.Calibration is { } calibration ? new(calibration, settings.Axes, settings.FullScale) : null];
            Settings = corrections[0] is { } single ? settings with { FullScale = single.CorrectedFullScale } : settings;
            return;
        }

        order = [.. settings.Stations.Select(station => settings.Stations.Count(other => other.FirstChannel < station.FirstChannel))];
        corrections = [.. settings.Stations.Select((station, i) => feeder.Sensors[i].Sensor.Calibration is { } own
            ? new SampleCorrection(own, SensorChannels.Only(settings, station).Axes, station.FullScale) : null)];
        Settings = settings with
        {
            Stations = [.. settings.Stations.Select((station, i) => corrections[i] is { } correction ? station with { FullScale = correction.CorrectedFullScale } : station)],
        };
    }

    /// <summary>Gets the settings for the samples as they are afterwards.</summary>
    public MeterSettings Settings { get; }

    /// <summary>Prepares a block.</summary>
    public void Apply(SampleBlock block)
    {
        if (asRead.Stations.Count == 0)
        {
            corrections[0]?.Apply(block);
            return;
        }

        if (block.Marks.ContainsAnyExcept(SampleMarks.None))
        {
            Attribute(block);
        }

        for (var i = 0; i < corrections.Length; i++)
        {
            corrections[i]?.Apply(block, asRead.Stations[i].FirstChannel, StationSettings.ClippedMark(i));
        }
    }

    /// <summary>
    /// Replaces the mark that some sensor is at its rail by the marks of those that are; where none can be told, it stays for all. A source that tells sensors apart
    /// itself counts them by their channels, the marks that come out by the feeder file's order.
    /// </summary>
    private void Attribute(SampleBlock block)
    {
        var marks = block.FillMarks()[..block.Count];
        for (var n = 0; n < marks.Length; n++)
        {
            if (marks[n] == SampleMarks.None)
            {
                continue;
            }

            var owners = SampleMarks.None;
            for (var i = 0; i < asRead.Stations.Count; i++)
            {
                var told = (marks[n] & StationSettings.ClippedMark(order[i])) != SampleMarks.None;
                owners |= told || AtRail(block, asRead.Stations[i], n) ? StationSettings.ClippedMark(i) : SampleMarks.None;
            }

            marks[n] = owners == SampleMarks.None ? SampleMarks.Clipped : owners;
        }
    }

    private bool AtRail(SampleBlock block, StationSettings station, int sample)
    {
        var rail = Math.Min(numberRail ?? double.PositiveInfinity, Rail * Math.Min(station.FullScale ?? double.PositiveInfinity, block.FullScale ?? double.PositiveInfinity));
        for (var channel = station.FirstChannel; channel < station.FirstChannel + station.Channels; channel++)
        {
            if (Math.Abs(block[channel][sample]) >= rail)
            {
                return true;
            }
        }

        return false;
    }
}
