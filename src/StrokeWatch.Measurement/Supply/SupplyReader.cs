using StrokeWatch.Measurement.Uncertainty;

namespace StrokeWatch.Measurement.Supply;

/// <summary>Measures the supply's voltage in a window, and the motion's phase against it. Nothing is allocated a window.</summary>
internal sealed class SupplyReader
{
    /// <summary>The phase needs so much of the power at the supply's own frequency; noise and a channel that is not connected have less.</summary>
    private const double LeastShare = 0.02;

    private const int Anchor = 64;
    private const string Missing = "the supply's voltage is missing in some of the samples";
    private const string AtRail = "the supply's channel stands at the end of its range";
    private const string NoSupply = "the channel shows no voltage at the supply's frequency";
    private const string NotSteady = "the phase against the supply needs a window of steady running";
    private const string NoSine = "the voltage is no sine, whole or cut, so that no firing angle can be read from it";
    private const string NoCut = "no part of the cycle is without voltage: it is taken ahead of a controller, or nothing is cut that an inductive coil would show";

    private readonly SupplySettings settings;
    private readonly Conduction conduction = new();
    private readonly double[] volts, cos, sin, turns;

    /// <summary>Makes a reader for windows up to a number of samples.</summary>
    public SupplyReader(SupplySettings settings, int longest)
    {
        this.settings = settings;
        (volts, cos, sin, turns) = (new double[longest], new double[longest], new double[longest], new double[longest]);
    }

    /// <summary>Reads a window.</summary>
    /// <param name="values">The channel's samples, in its own unit.</param>
    /// <param name="places">The samples' places where they are not taken as evenly spaced; empty where they are.</param>
    /// <param name="line">The acceleration along the line of action, evenly spaced; empty where the window is not one of steady running.</param>
    /// <param name="strokeFrequency">The stroke's frequency, in cycles a sample.</param>
    /// <param name="rateHz">The rate of the samples in Hz.</param>
    public SupplyReading Read(ReadOnlySpan<double> values, ReadOnlySpan<double> places, ReadOnlySpan<double> line, double strokeFrequency, double rateHz)
    {
        var count = values.Length;
        double square = 0;
        for (var n = 0; n < count; n++)
        {
            if (double.IsNaN(values[n]) || Math.Abs(values[n]) >= (settings.Rail ?? double.PositiveInfinity))
            {
                return new() { Reason = double.IsNaN(values[n]) ? Missing : AtRail };
            }

            volts[n] = values[n] * settings.VoltsPerUnit;
            square += volts[n] * volts[n];
        }

        if (count == 0)
        {
            return new() { Reason = Missing };
        }

        var reading = new SupplyReading { RmsVolts = Math.Sqrt(square / count) };
        Turn(places, count, strokeFrequency / settings.StrokesPerCycle);
        ReadOnlySpan<double> u = volts.AsSpan(0, count), c = cos.AsSpan(0, count), s = sin.AsSpan(0, count);
        if (KnownSine.Of(u, c, s) is not { } fundamental || fundamental.Amplitude * fundamental.Amplitude / 2 * count < LeastShare * square || square == 0)
        {
            return reading with { Reason = NoSupply };
        }

        conduction.Read(u, c, s, turns.AsSpan(0, count));
        reading = reading with
        {
            MainsVolts = conduction.FiringDegrees is null ? reading.RmsVolts : conduction.MainsAmplitude / Math.Sqrt(2),
            FundamentalVolts = fundamental.Amplitude / Math.Sqrt(2),
            ConductionShare = conduction.Share,
            FiringDegrees = conduction.FiringDegrees,
            FiringUncertaintyDegrees = conduction.FiringDegrees is null ? null : 2 * Distributions.Rectangular(conduction.HalfWidthDegrees),
            Reason = conduction.Share is null ? NoSine : conduction.FiringDegrees is null ? NoCut : null,
        };
        if (line.IsEmpty)
        {
            return reading with { Reason = NotSteady };
        }

        var mains = conduction.Share is null ? fundamental.Phase : conduction.MainsPhase;
        var (lag, uncertainty) = settings.Lag.At(strokeFrequency * rateHz, rateHz);
        return Motion(line, places.IsEmpty, strokeFrequency) is { } motion
            ? reading with
            {
                PhaseDegrees = Math.IEEERemainder((motion - settings.StrokesPerCycle * mains) * 180 / Math.PI + lag, 360),
                PhaseUncertaintyDegrees = uncertainty,
            }
            : reading with { Reason = NotSteady };
    }

    /// <summary>Gives the phase in radians of the displacement's fundamental, written as a sine: half a turn from that of the acceleration.</summary>
    private double? Motion(ReadOnlySpan<double> line, bool even, double frequency)
    {
        if (!even || settings.StrokesPerCycle != 1)
        {
            Turn(default, line.Length, frequency);
        }

        return KnownSine.Of(line, cos.AsSpan(0, line.Length), sin.AsSpan(0, line.Length))?.Phase + Math.PI;
    }

    /// <summary>Works out the angle of each sample at a frequency, 0 in the middle of the window.</summary>
    private void Turn(ReadOnlySpan<double> places, int count, double frequency)
    {
        var (stepSin, stepCos) = Math.SinCos(2 * Math.PI * frequency);
        for (var n = 0; n < count; n++)
        {
            turns[n] = frequency * (places.IsEmpty ? n - 0.5 * (count - 1) : places[n]);
            (sin[n], cos[n]) = n % Anchor == 0 || !places.IsEmpty
                ? Math.SinCos(2 * Math.PI * turns[n])
                : (sin[n - 1] * stepCos + cos[n - 1] * stepSin, cos[n - 1] * stepCos - sin[n - 1] * stepSin);
        }
    }
}
