using StrokeWatch.Sensors.Decoding;

namespace StrokeWatch.Sensors.Live;

/// <summary>The rate that blocks carry: what the sensor says, until a measurement shows that it is wrong by more than 0.01 %.</summary>
/// <remarks>A stroke is off by twice the relative error of the rate, so 0.01 % costs 0.02 %; less than that is not worth a change of rate.</remarks>
internal sealed class RateInUse
{
    private const double WorthChanging = 1e-4;

    /// <summary>The relative difference from which a device's clock, and not its rate, is taken to be wrong.</summary>
    private const double Unbelievable = 0.2;

    private double? stated;

    /// <summary>Gets the rate in Hz; null where neither stated nor measured.</summary>
    public double? Hz { get; private set; }

    /// <summary>Gets the last measured rate in Hz; null until there is one.</summary>
    public double? MeasuredHz { get; private set; }

    /// <summary>Gets the relative difference of the measured rate from the stated one; 0 where one of them is unknown.</summary>
    public double Difference => stated is { } s && MeasuredHz is { } m ? (m / s) - 1 : 0;

    /// <summary>Gets whether the measured rate is too far off to be used.</summary>
    public bool Disbelieved => Math.Abs(Difference) > Unbelievable;

    /// <summary>Takes a run's word on the rate.</summary>
    public void Note(SampleRun run, double? configured)
    {
        var says = run.Sensor?.RateHz ?? configured;
        if (says != stated)
        {
            stated = says;
            Hz = says;
        }

        if (run.MeasuredRateHz is { } measured && double.IsFinite(measured) && measured > 0)
        {
            MeasuredHz = measured;
            if (!Disbelieved && (Hz is not { } hz || Math.Abs(measured - hz) > WorthChanging * hz))
            {
                Hz = measured;
            }
        }
    }
}
