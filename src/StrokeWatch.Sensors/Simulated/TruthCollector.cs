using StrokeWatch.Machine.Dynamics;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>Watches the machine at its full rate and keeps what it truly did.</summary>
internal sealed class TruthCollector(FeederScenario scenario, double stepSeconds, MagnetScale scale)
{
    private readonly TruthWindow window = new(stepSeconds, scenario.Feeder.Drive.NominalHz);
    private readonly double settle = MachineBuild.Settle(scenario, 8, 0);
    private readonly List<TruthReading> readings = [];
    private readonly TruePlaces? places = scenario.Sensors.Count > 0 ? new(scenario, stepSeconds) : null;
    private double cycleSum;
    private long onSteps;
    private long contacts;
    private bool touching;
    private double? firstContact, lastContact;
    private double peakContact;
    private double squaredVolts;
    private long voltSteps;

    /// <summary>Looks at the machine after a step within the run.</summary>
    public void Watch(FeederMachine machine)
    {
        var seconds = machine.Seconds;
        if (machine.ContactForce > 0 && !touching)
        {
            contacts++;
            firstContact ??= seconds;
            lastContact = seconds;
        }

        touching = machine.ContactForce > 0;
        peakContact = Math.Max(peakContact, machine.ContactForce);
        if (machine.OnSince is not { } since)
        {
            window.Clear();
            places?.Clear();
            return;
        }

        cycleSum += machine.DriveHz;
        onSteps++;
        if (seconds - since < settle)
        {
            return;
        }

        if (scenario.SupplyChannel is { } channel)
        {
            squaredVolts += Math.Pow(VoltageProbe.Volts(channel, machine), 2);
            voltSteps++;
        }

        if ((places is null ? window.Add(seconds, machine.Phase, machine.Displacement) : places.Add(machine)) is { } reading)
        {
            readings.Add(reading);
        }
    }

    /// <summary>Gives the truth so far.</summary>
    /// <param name="elements">The sensors' elements; of one sensor the one.</param>
    /// <param name="facts">What happened to the samples.</param>
    public SimulationTruth Truth(IReadOnlyList<SensorElement> elements, CaptureFacts facts)
    {
        var (natural, damping) = FreeModes.Highest(MachineBuild.Parts(scenario, false, 0));
        var stroke = Stroke(elements[Math.Max(0, scenario.Sensors.ToList().FindIndex(place => SensorPlaces.IsOnTray(place.Place)))]);
        return new SimulationTruth
        {
            Scenario = scenario.Name,
            Seed = scenario.Seed,
            DurationSeconds = facts.Seconds,
            RateHz = scenario.Sensor.RateHz,
            Samples = facts.Samples,
            DriveHz = onSteps > 0 ? cycleSum / onSteps : null,
            SensorClockErrorPpm = scenario.Sensor.HostTimes ? 0 : scenario.Sensor.RateErrorPpm,
            Stroke = stroke,
            Sensors = places?.Sensors(elements) ?? [],
            Relative = places?.Relative(),
            Supply = Supply(),
            Verdict = Verdict(stroke, facts),
            NaturalHz = natural,
            DampingRatio = damping,
            Strikes = new TrueStrikes(
                contacts, firstContact, lastContact, peakContact, peakContact / scale.PeakPull, scenario.Strike?.ForceShare, scenario.Strike?.Every),
            On = On(facts.Seconds),
            ClippedSamples = facts.Clipped,
            Faults = scenario.Faults,
            Gaps = facts.Gaps,
        };
    }

    internal static double Median(IEnumerable<double> values)
    {
        var sorted = values.Order().ToArray();
        return (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
    }

    private TrueStroke? Stroke(SensorElement element) => readings.Count == 0 ? null : new TrueStroke(
        Length.FromMetres(Median(readings.Select(r => r.PeakToPeak))),
        Length.FromMetres(Median(readings.Select(r => r.Fundamental))),
        Length.FromMetres(readings.Min(r => r.PeakToPeak)),
        Length.FromMetres(readings.Max(r => r.PeakToPeak)),
        element.SeenAngleDegrees(Median(readings.Select(r => r.Angle))),
        Median(readings.Select(r => r.EllipseRatio)),
        readings.Count);

    /// <summary>Gives the supply; the readings' phase is that of a cosine, which a sine follows a quarter turn later.</summary>
    private TrueSupply? Supply() => voltSteps == 0 || readings.Count == 0 ? null : new TrueSupply(
        Math.Sqrt(squaredVolts / voltSteps),
        Math.IEEERemainder(90 + (Median(readings.Select(r => readings[0].Phase + Math.IEEERemainder(r.Phase - readings[0].Phase, 2 * Math.PI))) * 180 / Math.PI), 360));

    private string Verdict(TrueStroke? stroke, CaptureFacts facts)
    {
        if (onSteps == 0 || stroke is { PeakToPeak.Metres: < 1e-5 })
        {
            return "stopped";
        }

        var measurable = readings.Any(r => !facts.IsSpoilt(r.StartSeconds, r.StartSeconds + r.LengthSeconds));
        var band = scenario.Feeder.Band;
        return stroke is null || !measurable ? "unmeasurable"
            : (places is null ? stroke.PeakToPeak.Metres : Median(places.Largest)) > band.Limit.Metres ? "over-stroke"
            : stroke.PeakToPeak.Metres > band.High.Metres ? "high"
            : stroke.PeakToPeak.Metres < band.Low.Metres ? "low"
            : "in-band";
    }

    private List<(double From, double To)> On(double seconds)
    {
        IEnumerable<(double From, double To)> asked = scenario.Supply.On.Count == 0 ? [(0, seconds)] : scenario.Supply.On;
        return [.. asked.Select(on => (Math.Max(0, on.From), Math.Min(seconds, on.To))).Where(on => on.Item2 > on.Item1)];
    }
}
