using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Assessment.Reports;

/// <summary>Gathers what several sensors show and sums it up at the end.</summary>
internal sealed class SeveralBuilder
{
    private const string NoMotion = "it shows no motion at the drive frequency though another sensor does";
    private const string OtherClock = "it is sampled by a clock of its own: its phase against another clock is not known";
    private readonly List<double> starts = [];
    private readonly List<KeptReading> kept = [];
    private readonly List<RelativeReading> relatives = [];

    /// <summary>Takes one window.</summary>
    public void Add(in SeveralReading reading)
    {
        var sensors = reading.Sensors.Span;
        starts.Add(sensors[0].Reading.StartSeconds);
        foreach (var sensor in sensors)
        {
            kept.Add(KeptReading.Of(sensor));
        }

        relatives.Add(reading.Relative);
    }

    /// <summary>Sums up.</summary>
    /// <param name="stations">The sensors.</param>
    /// <param name="mountings">How each stands; empty where that was not tallied.</param>
    public SeveralSummary Build(IReadOnlyList<StationSettings> stations, IReadOnlyList<MountingSummary> mountings)
    {
        List<KeptReading[]> windows = [.. kept.Chunk(stations.Count)];
        var lead = Enumerable.Range(0, stations.Count).FirstOrDefault(i => SensorPlaces.IsOnTray(stations[i].Place) && windows.Exists(window => window[i].Counts), -1);
        List<SensorSummary> sensors = [.. stations.Select((station, i) => Sensor(windows, station, i, lead) with { Mounting = mountings.ElementAtOrDefault(i) })];
        return new(sensors, Spread(windows, stations, sensors, SpreadEnds.FrontRear), Spread(windows, stations, sensors, SpreadEnds.LeftRight), Relative(windows, stations))
        {
            Windows = [.. windows.Select((window, w) => (starts[w], (IReadOnlyList<double?>)[.. window.Select(one => one.Counts ? one.Stroke : (double?)null)]))],
        };
    }

    private static SensorSummary Sensor(List<KeptReading[]> windows, StationSettings station, int i, int lead)
    {
        var good = windows.Select(window => window[i]).Where(reading => reading.Counts).ToList();
        var summary = new SensorSummary
        {
            Place = station.Place,
            Leads = i == lead,
            WindowsGood = good.Count,
            WindowsClipped = windows.Count(window => window[i].Quality == WindowQuality.Clipped),
            Quality = windows.GroupBy(window => window[i].Quality).OrderByDescending(group => group.Count()).FirstOrDefault()?.Key ?? WindowQuality.Gap,
        };
        if (good.Count == 0)
        {
            return summary with { Reason = Why(windows, i, lead), PhaseReason = "it gives no stroke" };
        }

        var stroke = WindowStatistics.Median(good.Select(reading => reading.Stroke))!.Value;
        var noise = WindowStatistics.Median(good.Select(reading => reading.Noise)) ?? 0;
        var budget = StrokeBudget.Of(stroke, station.Contributions.Hiding(good.Average(reading => reading.HiddenCut)), noise, WindowStatistics.Scatter([.. good.Select(reading => reading.Stroke)]), good.Count);
        var (phase, uncertainty) = Phase(windows, i, lead);
        return summary with
        {
            Stroke = stroke,
            Uncertainty = StrokeBudget.CoverageFactor * budget.Combined,
            Budget = budget,
            LineAngleDegrees = WindowStatistics.Median(good.Select(reading => reading.LineAngle)),
            EllipseRatio = WindowStatistics.Median(good.Select(reading => reading.EllipseRatio)),
            PhaseDegrees = phase,
            PhaseUncertaintyDegrees = uncertainty,
            PhaseReason = phase is not null ? null
                : lead < 0 ? "no sensor on the tray gives a stroke to count from"
                : windows.Exists(window => window[i].OtherClock) ? OtherClock
                : "it shares no window, or no axis, with the sensor that leads",
        };
    }

    private static string Why(List<KeptReading[]> windows, int i, int lead)
    {
        var common = windows.Where(window => lead < 0 || window[lead].Counts).GroupBy(window => (window[i].Motion == MotionState.Stopped, window[i].Reason))
            .OrderByDescending(group => group.Count()).FirstOrDefault();
        return common is null ? "no window was measured"
            : lead >= 0 && common.Key.Item1 ? NoMotion
            : common.Key.Reason ?? "it never ran steadily";
    }

    /// <summary>Gives the phase against the sensor that leads: the median about the mean direction, so that ±180° does no harm.</summary>
    private static (double? Degrees, double? Uncertainty) Phase(List<KeptReading[]> windows, int i, int lead)
    {
        if (lead < 0 || i == lead)
        {
            return lead < 0 ? (null, null) : (0, 0);
        }

        List<(double Apart, double Noise)> phases = [.. windows.Where(window => window[i].Counts && window[lead].Counts)
            .Select(window => (window[i].Phase - window[lead].Phase, double.Hypot(window[i].PhaseNoise, window[lead].PhaseNoise)))
            .Where(phase => !double.IsNaN(phase.Item1))];
        if (phases.Count == 0)
        {
            return (null, null);
        }

        var mean = Math.Atan2(phases.Sum(phase => Math.Sin(phase.Apart)), phases.Sum(phase => Math.Cos(phase.Apart)));
        List<double> about = [.. phases.Select(phase => Math.IEEERemainder(phase.Apart - mean, 2 * Math.PI))];
        var degrees = Math.IEEERemainder(mean + WindowStatistics.Median(about)!.Value, 2 * Math.PI) * 180 / Math.PI;
        var uncertainty = WindowStatistics.Uncertainty(about, phases.Select(phase => phase.Noise));
        return (degrees <= -180 ? degrees + 360 : degrees, StrokeBudget.CoverageFactor * uncertainty * 180 / Math.PI);
    }

    private static SpreadSummary Spread(List<KeptReading[]> windows, IReadOnlyList<StationSettings> stations, List<SensorSummary> sensors, SpreadEnds ends)
    {
        List<SensorPlace> places = [.. stations.Select(station => station.Place)];
        if (ends.Weights(places, place => sensors.Exists(sensor => sensor.Place == place && sensor.Stroke is not null)) is not var (first, second))
        {
            var silent = sensors.Find(sensor => sensor.Stroke is null && ends.Holds(sensor.Place));
            return new(null, null, null, null, silent is not null && ends.Weights(places, places.Contains) is not null
                ? $"the sensor {SensorPlaces.Name(silent.Place)} gives no stroke: {silent.Reason}"
                : $"sensors at {ends.First} and {ends.Second} are not both listed");
        }

        var joint = windows.FindAll(window => window.Select((reading, i) => reading.Counts || first[i] + second[i] == 0).All(counts => counts));
        if (joint.Count == 0)
        {
            return new(null, null, null, null, "its sensors share no window in which all give a stroke");
        }

        static double Sum(double[] weights, IEnumerable<double> values) => weights.Zip(values, (weight, value) => weight == 0 ? 0 : weight * value).Sum();
        double[] apart = [.. first.Zip(second, (a, b) => a - b)];
        List<double> differences = [.. joint.Select(window => Sum(apart, window.Select(reading => reading.Stroke)))];
        var noises = joint.Select(window => Math.Sqrt(Sum([.. apart.Select(weight => weight * weight)], window.Select(reading => reading.Noise * reading.Noise))));
        var difference = WindowStatistics.Median(differences)!.Value;
        var own = stations.Select((station, i) => apart[i] == 0 ? 0 : Math.Pow(apart[i] * StationContributions.Own(station.Contributions) * sensors[i].Stroke!.Value, 2)).Sum();
        var shared = stations.Max(station => StationContributions.Shared(station.Contributions)) * difference;
        var chance = WindowStatistics.Uncertainty(differences, noises);
        return new(
            WindowStatistics.Median(joint.Select(window => Sum(first, window.Select(reading => reading.Stroke)))),
            WindowStatistics.Median(joint.Select(window => Sum(second, window.Select(reading => reading.Stroke)))),
            difference,
            StrokeBudget.CoverageFactor * Math.Sqrt(own + shared * shared + chance * chance),
            null);
    }

    private RelativeSummary Relative(List<KeptReading[]> windows, IReadOnlyList<StationSettings> stations)
    {
        var measured = Enumerable.Range(0, relatives.Count).Where(w => relatives[w].Metres is not null).ToList();
        if (measured.Count == 0)
        {
            var reason = relatives.GroupBy(relative => relative.Reason).OrderByDescending(group => group.Count()).FirstOrDefault()?.Key ?? "no window was measured";
            var listed = stations.Any(station => !SensorPlaces.IsOnTray(station.Place));
            return new(null, null, listed ? $"tray or body: {reason}" : reason);
        }

        List<double> extents = [.. measured.Select(w => relatives[w].Metres!.Value)];
        var stroke = WindowStatistics.Median(extents)!.Value;
        var own = stations.Select((station, i) =>
            Math.Pow(StationContributions.Own(station.Contributions) * (WindowStatistics.Median(measured.Select(w => windows[w][i].Part)) ?? 0), 2)).Sum();
        var shared = stations.Max(station => StationContributions.Shared(station.Contributions)) * stroke;
        var chance = WindowStatistics.Uncertainty(extents, measured.Select(w => relatives[w].NoiseMetres!.Value));
        return new(stroke, StrokeBudget.CoverageFactor * Math.Sqrt(own + shared * shared + chance * chance), null);
    }
}
