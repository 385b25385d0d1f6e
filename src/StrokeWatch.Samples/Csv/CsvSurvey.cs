using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Samples.Csv;

/// <summary>The first passage over a table with times: its spacing, rate, gaps and jitter, in bounded memory.</summary>
/// <param name="Grid">The spacing by which rows are judged; null where the times do not advance.</param>
/// <param name="Summary">What the whole column shows; null likewise.</param>
/// <param name="Samples">The samples that will be delivered.</param>
internal sealed record CsvSurvey(TimeGrid? Grid, TimestampStatistics? Summary, long Samples)
{
    /// <summary>The rows judged at a time, beside those looked ahead.</summary>
    private const int Rows = 8192;

    /// <summary>Makes a stage that fits a spacing.</summary>
    public static RowStage Stage(int channels, TimeGrid? grid) => new(channels, Rows + (grid?.Ahead ?? 0));

    /// <summary>Goes over the whole table.</summary>
    /// <param name="open">Opens its rows; given whether the places of the times are watched.</param>
    /// <param name="timeScale">The unit of the times in seconds.</param>
    /// <param name="channels">The numbers of a row.</param>
    public static CsvSurvey Of(Func<bool, RowReader> open, double timeScale, int channels)
    {
        if (FirstRows(open, timeScale, channels) is not { } grid)
        {
            return new(null, null, 0);
        }

        var line = new TimeLine(grid);
        var sums = new SurveySums(grid.Step);
        var stage = Stage(channels, grid);
        using var reader = open(false);
        while (!reader.Ended || stage.Done < stage.Count)
        {
            stage.Compact();
            reader.Fill(stage);
            line.Judge(stage, reader.Ended);
            sums.Take(stage);
        }

        var fit = sums.Fit();
        return new(grid, new TimestampStatistics
        {
            SpanSeconds = sums.SpanSeconds,
            StepSeconds = fit.Step ?? grid.Step,
            JitterRmsSeconds = fit.JitterRms,
            ResolutionSeconds = grid.Resolution,
            Shared = grid.RowsPerTime > TimeGrid.SharedRows,
            StepUncertainty = fit.RelativeUncertainty(grid.Resolution),
            Repeats = line.Repeats,
            BackwardSteps = line.BackwardSteps,
            Gaps = line.Gaps,
            MissingSamples = line.Missing,
            LargestGapSeconds = line.LargestGap,
        }, sums.Samples);
    }

    private static TimeGrid? FirstRows(Func<bool, RowReader> open, double timeScale, int channels)
    {
        using var reader = open(true);
        var stage = Stage(channels, null);
        var times = new List<double>();
        while (!reader.Ended && times.Count < TimeGrid.MostRows)
        {
            reader.Fill(stage);
            times.AddRange(stage.Time.AsSpan(0, stage.Count));
            stage.Count = 0;
        }

        times.RemoveAll(double.IsNaN);
        var place = reader.LastPlace is { } digits and > -15 ? Math.Pow(10, digits) * timeScale : 0;
        return TimeGrid.Find(System.Runtime.InteropServices.CollectionsMarshal.AsSpan(times), place);
    }
}
