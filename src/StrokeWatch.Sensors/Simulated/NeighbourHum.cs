using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>The tones of other machines at the sensor, each with a phase of its own.</summary>
internal sealed class NeighbourHum
{
    private readonly (NeighbourTone Tone, double Phase, double X, double Z)[] tones;

    public NeighbourHum(IReadOnlyList<NeighbourTone> neighbours, SeededRandom random) => tones = [.. neighbours.Select(tone =>
    {
        var (sin, cos) = Math.SinCos(tone.AngleDegrees * Math.PI / 180);
        var peak = tone.PeakG * Gravity.Standard;
        return (tone, 2 * Math.PI * random.Uniform(), peak * cos, peak * sin);
    })];

    /// <summary>Gives the acceleration at a time along the tray's axes, in m/s².</summary>
    public (double X, double Y, double Z) At(double seconds)
    {
        double x = 0, y = 0, z = 0;
        foreach (var (tone, phase, peakX, peakZ) in tones)
        {
            var wave = Math.Sin((2 * Math.PI * tone.FrequencyHz * seconds) + phase);
            x += peakX * wave;
            y += tone.PeakG * Gravity.Standard * tone.SideShare * wave;
            z += peakZ * wave;
        }

        return (x, y, z);
    }
}
