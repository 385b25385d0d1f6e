using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Assessment.Reports;

/// <summary>Reads the sensor's clock off the windows: its steps, and its error in the longest stretch without one.</summary>
/// <remarks>The mains too changes its frequency, but hardly faster than 0.1 Hz a second, 0.1 % from window to window (common practice, no source): what jumps further is the sensor's clock.</remarks>
internal static class ClockReader
{
    private const double Jump = 1.5e-3;
    private const double Change = 3e-3;
    private const double LongestPauseSeconds = 2;
    private const int Side = 3;

    /// <summary>Gives the error, null where no window tells it, and the steps.</summary>
    /// <param name="steady">The windows in which the feeder ran steadily, in order of time.</param>
    public static (double? Error, IReadOnlyList<ClockStep> Steps) Read(IReadOnlyList<WindowReading> steady)
    {
        var told = steady.Where(window => window.ClockError is not null)
            .Select(window => new Told(window.StartSeconds, window.LengthSeconds, window.ClockError!.Value)).ToArray();
        List<ClockStep> steps = [];
        var (first, longest, error) = (0, -1.0, (double?)null);
        for (var i = 1; i <= told.Length; i++)
        {
            if (i < told.Length && !IsStep(told, i))
            {
                continue;
            }

            // A window that holds the step itself shows half of it on either side: the larger half counts.
            i = i < told.Length - 1 && IsStep(told, i + 1) && Difference(told, i + 1) > Difference(told, i) ? i + 1 : i;
            var stretch = told[first..i];
            if (stretch.Sum(window => window.LengthSeconds) is var length && length > longest)
            {
                (longest, error) = (length, ReportBuilder.Median(stretch, window => window.ClockError));
            }

            if (i < told.Length)
            {
                steps.Add(new(told[i].StartSeconds, Median(told, i - Side, i), Median(told, i, i + Side)));
            }

            (first, i) = (i, i + 1);
        }

        return (error, steps);
    }

    private static bool IsStep(Told[] told, int i) => i >= 2 && i <= told.Length - 2
        && told[i].StartSeconds - told[i - 1].StartSeconds - told[i - 1].LengthSeconds < LongestPauseSeconds
        && Difference(told, i) > Jump
        && Math.Abs(Median(told, i, i + Side) - Median(told, i - Side, i)) > Change;

    private static double Difference(Told[] told, int i) => Math.Abs(told[i].ClockError - told[i - 1].ClockError);

    private static double Median(Told[] told, int from, int until) =>
        ReportBuilder.Median(told[Math.Max(0, from)..Math.Min(told.Length, until)], window => window.ClockError)!.Value;

    /// <summary>What a window tells of the clock: kept instead of the whole window, of which a day has 170,000.</summary>
    private readonly record struct Told(double StartSeconds, double LengthSeconds, double ClockError);
}
