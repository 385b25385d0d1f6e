using System.Globalization;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Sensors.Chips;

/// <summary>The range that a feeder asks of its sensor, from its own over-stroke limit.</summary>
/// <remarks>
/// Peak acceleration of a sinusoid of peak-to-peak stroke D: (2πf)² D/2. A fifth is added for harmonics and 1 g for gravity, and full scale should be twice that: common practice, no source.
/// </remarks>
/// <param name="StrokePeakG">Peak acceleration at the over-stroke limit in g.</param>
/// <param name="ExpectedPeakG">The same with harmonics and gravity.</param>
public readonly record struct RangeAdvice(double StrokePeakG, double ExpectedPeakG)
{
    /// <summary>The allowance for harmonics, as a part of the fundamental.</summary>
    public const double Harmonics = 0.2;

    /// <summary>How many times the expected peak full scale should be.</summary>
    public const double Margin = 2;

    /// <summary>Gets the full scale in g that should be had.</summary>
    public double WantedG => Margin * ExpectedPeakG;

    /// <summary>Works out the advice for a feeder.</summary>
    public static RangeAdvice For(FeederDescription feeder) => For(feeder.Band.Limit.Metres, feeder.Drive.NominalHz);

    /// <summary>Works out the advice for a stroke in metres, peak to peak, at a frequency in Hz.</summary>
    public static RangeAdvice For(double strokeMetres, double hz)
    {
        var omega = 2 * Math.PI * hz;
        var peak = omega * omega * strokeMetres / 2 / Gravity.Standard;
        return new(peak, (peak * (1 + Harmonics)) + 1);
    }

    /// <summary>Judges a full scale in g.</summary>
    public RangeVerdict Judge(double fullScaleG) => fullScaleG < ExpectedPeakG ? RangeVerdict.Clips : fullScaleG < WantedG ? RangeVerdict.Narrow : RangeVerdict.Suits;

    /// <summary>Gives the chips and their smallest ranges that suit, as words for people; says so where none does.</summary>
    public string Suiting()
    {
        var wanted = WantedG;
        var suiting = ChipModels.All.Where(model => model.Limits.Length == 0 && model.Ranges.Any(range => range.FullScaleG >= wanted))
            .Select(model => string.Create(CultureInfo.InvariantCulture, $"{model.Name} at {model.Ranges.First(range => range.FullScaleG >= wanted).FullScaleG:0} g")).ToList();
        return suiting.Count == 0 ? string.Create(CultureInfo.InvariantCulture, $"no chip with a driver here; a sensor of {wanted:0} g") : string.Join(" or ", suiting);
    }

    /// <summary>Gives in a sentence what a full scale in g is worth for this feeder, with the numbers.</summary>
    public string Words(double fullScaleG)
    {
        var need = string.Create(
            CultureInfo.InvariantCulture,
            $"the over-stroke limit is {StrokePeakG:0.0} g, with harmonics and gravity {ExpectedPeakG:0.0} g, so {WantedG:0.0} g of full scale are wanted");
        return Judge(fullScaleG) switch
        {
            RangeVerdict.Suits => string.Create(CultureInfo.InvariantCulture, $"{fullScaleG:0.###} g: {need}: it suits"),
            RangeVerdict.Narrow => string.Create(CultureInfo.InvariantCulture, $"{fullScaleG:0.###} g: {need}: it works, but a strike will clip; better {Suiting()}"),
            _ => string.Create(CultureInfo.InvariantCulture, $"{fullScaleG:0.###} g: {need}: it would clip and read low; take {Suiting()}"),
        };
    }
}
