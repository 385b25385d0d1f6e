namespace StrokeWatch.Samples.Csv;

/// <summary>The step between samples by least squares over all stretches without gaps, each with a start of its own.</summary>
/// <remarks>
/// One straight line of time over row number a stretch, all of one slope: slope = Σ Sxy / Σ Sxx, Sxx = n (n² - 1) / 12 for rows in a row.
/// The rough step is taken off first, so that the sums stay small however long the capture.
/// </remarks>
internal sealed class RateFit
{
    private readonly double rough;
    private long rows;
    private long timed;
    private bool gapsInRows;
    private double start;
    private double sumX;
    private double sumXX;
    private double sumY;
    private double sumXY;
    private double sumYY;
    private double pooledXX;
    private double pooledXY;
    private double pooledYY;
    private long pooledRows;
    private double pooledXXRows;

    /// <summary>Makes an empty fit around a rough step in seconds.</summary>
    public RateFit(double rough) => this.rough = rough;

    /// <summary>Gets the rows taken.</summary>
    public long Rows { get; private set; }

    /// <summary>Gets the step in seconds; null where no stretch has two rows.</summary>
    public double? Step => pooledXX > 0 ? rough + (pooledXY / pooledXX) : null;

    /// <summary>Gets the rms distance of the times from their lines, in seconds.</summary>
    public double JitterRms => pooledRows == 0 ? 0
        : Math.Sqrt(Math.Max(0, pooledYY - (pooledXX > 0 ? pooledXY * pooledXY / pooledXX : 0)) / pooledRows);

    /// <summary>Gives the relative standard uncertainty of the step: a stretch of span T = √(12 Sxx/n) steps, known by two ends of σ each, tells its step within √2 σ/T.</summary>
    /// <param name="resolution">The rounding of the times in seconds; σ is at least that of its rectangle.</param>
    public double RelativeUncertainty(double resolution) => pooledXX > 0 && Step is { } step
        ? Math.Max(JitterRms, resolution / Math.Sqrt(12)) * Math.Sqrt(pooledXXRows / 6) / pooledXX / step
        : double.PositiveInfinity;

    /// <summary>Takes the next rows of the stretch; a time that is NaN only counts as a row.</summary>
    public void Add(ReadOnlySpan<double> times)
    {
        var i = 0;
        for (; i < times.Length && (rows == 0 || double.IsNaN(times[i])); i++)
        {
            Add(times[i]);
        }

        var (row, x, xx, y, xy, yy) = (rows, sumX, sumXX, sumY, sumXY, sumYY);
        for (; i < times.Length && !double.IsNaN(times[i]); i++, row++)
        {
            double place = row;
            var off = times[i] - start - (place * rough);
            x += place;
            xx += place * place;
            y += off;
            xy += place * off;
            yy += off * off;
        }

        var taken = row - rows;
        (Rows, timed) = (Rows + taken, timed + taken);
        (rows, sumX, sumXX, sumY, sumXY, sumYY) = (row, x, xx, y, xy, yy);
        for (; i < times.Length; i++)
        {
            Add(times[i]);
        }
    }

    /// <summary>Ends the stretch.</summary>
    public void EndStretch()
    {
        if (timed > 1)
        {
            double n = timed;
            var squares = gapsInRows ? sumXX - (sumX * sumX / n) : n * ((n * n) - 1) / 12;
            pooledXX += squares;
            pooledXXRows += squares * n;
            pooledXY += sumXY - (sumX / n * sumY);
            pooledYY += sumYY - (sumY / n * sumY);
            pooledRows += timed;
        }

        (rows, timed, sumX, sumXX, sumY, sumXY, sumYY, gapsInRows) = (0, 0, 0, 0, 0, 0, 0, false);
    }

    private void Add(double time)
    {
        Rows++;
        if (double.IsNaN(time))
        {
            rows = rows == 0 ? 0 : rows + 1;
            gapsInRows |= rows > 0;
            return;
        }

        if (rows == 0)
        {
            start = time;
        }

        double x = rows++;
        var y = time - start - (x * rough);
        timed++;
        sumX += x;
        sumXX += x * x;
        sumY += y;
        sumXY += x * y;
        sumYY += y * y;
    }
}
