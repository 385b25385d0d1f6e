namespace StrokeWatch.Measurement.Stroke;

/// <summary>
/// Tells from the signal whether time stamps say when the samples were truly taken, or only round or come late: the spacing that is wrong leaves the larger
/// residual, a stamp's error times the slope.
/// </summary>
/// <remarks>
/// The ratio F of the two sums of squares has ln F spread about 0 with variance 4/ν where neither is better (two independent variances of ν degrees of freedom).
/// Steps that take turns can make an image of the drive that a harmonic explains as well: there both spacings fit, and what was believed before stays.
/// Stamps come into use at three such deviations above 0 and go out of use at three below; between them what was decided stays.
/// </remarks>
internal sealed class TimeStampJudge(bool believed)
{
    private const double Deviations = 3;
    private const double Kept = 0.9;
    private const int SureAfter = 8;
    private const int Rest = 8;

    private double even;
    private double timed;
    private double freedom;
    private int unchanged;
    private int waited;

    /// <summary>Gets whether the stamps are in use.</summary>
    public bool Used { get; private set; } = believed;

    /// <summary>Gets whether the next window should be fitted both ways; once the answer has stood for a while, every eighth is enough.</summary>
    public bool Due => unchanged < SureAfter || waited >= Rest - 1;

    /// <summary>Takes the residuals of a window fitted both ways.</summary>
    /// <param name="evenSquares">Sum of squares with even spacing.</param>
    /// <param name="timedSquares">Sum of squares with the stamps.</param>
    /// <param name="degreesOfFreedom">Of either.</param>
    public void Take(double evenSquares, double timedSquares, double degreesOfFreedom)
    {
        (even, timed, freedom) = (Kept * even + evenSquares, Kept * timed + timedSquares, Kept * freedom + degreesOfFreedom);
        waited = 0;
        var decided = Used;
        if (even > 0 && timed > 0 && freedom > 0)
        {
            var logarithm = Math.Log(even / timed);
            var threshold = Deviations * Math.Sqrt(4 / freedom);
            decided = logarithm > threshold || (Used && logarithm > -threshold);
        }

        unchanged = decided == Used ? unchanged + 1 : 0;
        Used = decided;
    }

    /// <summary>Counts a window that was fitted one way.</summary>
    public void Skip() => waited++;
}
