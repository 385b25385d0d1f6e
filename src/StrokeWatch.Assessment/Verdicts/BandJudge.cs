using StrokeWatch.Machine.Feeder;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Assessment.Verdicts;

/// <summary>Places a stroke against the band, with hysteresis so that noise at an edge does not flicker.</summary>
public sealed class BandJudge(StrokeBand band, Length? hysteresis = null)
{
    /// <summary>The usual deadband, as a share of the top of the band (engineering judgement: 1 to 2 % of a band and at least three standard deviations of the reading).</summary>
    private const double UsualShare = 0.005;

    private const double NoiseMultiple = 3;

    private Verdict last = Verdict.InBand;

    /// <summary>Places a stroke without memory.</summary>
    /// <param name="strokeMetres">Stroke, peak to peak, in metres.</param>
    public Verdict Place(double strokeMetres) =>
        strokeMetres > band.Limit.Metres ? Verdict.OverStroke
        : strokeMetres > band.High.Metres ? Verdict.High
        : strokeMetres < band.Low.Metres ? Verdict.Low
        : Verdict.InBand;

    /// <summary>Places the next stroke of a series: an edge crossed once must be crossed back by the deadband.</summary>
    /// <param name="strokeMetres">Stroke, peak to peak, in metres.</param>
    /// <param name="noiseMetres">Standard deviation of the reading by noise, in metres.</param>
    public Verdict Next(double strokeMetres, double noiseMetres) => Next(strokeMetres, noiseMetres, strokeMetres);

    /// <summary>Places the next stroke of a series where several sensors sit on the tray: the limit holds for the largest of them, the band for their mean.</summary>
    /// <param name="strokeMetres">Mean stroke, peak to peak, in metres.</param>
    /// <param name="noiseMetres">Standard deviation of the reading by noise, in metres.</param>
    /// <param name="largestMetres">Largest stroke, peak to peak, in metres.</param>
    public Verdict Next(double strokeMetres, double noiseMetres, double largestMetres)
    {
        var dead = Math.Max(NoiseMultiple * noiseMetres, hysteresis?.Metres ?? UsualShare * band.High.Metres);
        var verdict = largestMetres > band.Limit.Metres ? Verdict.OverStroke : Place(strokeMetres);
        if (last == Verdict.OverStroke && (verdict is Verdict.High or Verdict.InBand || (verdict == Verdict.Low && largestMetres > strokeMetres))
            && largestMetres > band.Limit.Metres - dead)
        {
            verdict = Verdict.OverStroke;
        }
        else if (last is Verdict.High or Verdict.OverStroke && verdict == Verdict.InBand && strokeMetres > band.High.Metres - dead)
        {
            verdict = Verdict.High;
        }
        else if (last == Verdict.Low && verdict == Verdict.InBand && strokeMetres < band.Low.Metres + dead)
        {
            verdict = Verdict.Low;
        }

        return last = verdict;
    }

    /// <summary>Writes the band for people, in both systems.</summary>
    public override string ToString() => $"band {band.Low} to {band.High}, limit {band.Limit}";

    /// <summary>Writes a stroke for people, in both systems.</summary>
    internal static string Words(double? strokeMetres) =>
        strokeMetres is { } metres ? Length.FromMetres(metres).ToString() : "not measured";
}
