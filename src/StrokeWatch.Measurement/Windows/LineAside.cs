using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Windows;

/// <summary>
/// A window's line of action without the axis that reaches farthest out. All axes of a sensor have one range, so that axis is cut first where the range ends; a blow is felt along the others as well.
/// Storage grows to what is needed and stays.
/// </summary>
internal sealed class LineAside
{
    /// <summary>Where less of the line than this is left, as with an axis within 14° of it, the others show too little of a blow to say that there is none.</summary>
    private const double LeastLeft = 0.25;

    private double[] samples = [];
    private double[] harmonics = [];
    private double[] direction = [];
    private int count, orders;

    /// <summary>Gets whether there is one for this window.</summary>
    public bool There { get; private set; }

    /// <summary>Gets the acceleration along it in m/s².</summary>
    public ReadOnlySpan<double> Samples => samples.AsSpan(0, count);

    /// <summary>Gets its harmonics.</summary>
    public LineHarmonics Line => new(harmonics.AsSpan(0, orders), harmonics.AsSpan(orders, orders), direction);

    /// <summary>Forgets the window before.</summary>
    public void Clear() => There = false;

    /// <summary>Takes a window.</summary>
    /// <param name="buffer">The samples.</param>
    /// <param name="length">How many.</param>
    /// <param name="along">The line's weights by axis.</param>
    /// <param name="fitter">Has the harmonics of all axes.</param>
    /// <param name="farthest">The axis that reaches farthest out.</param>
    /// <param name="lineOfAction">Adds axes up.</param>
    public void Take(WindowBuffer buffer, int length, ReadOnlySpan<double> along, WindowFitter fitter, int farthest, LineOfAction lineOfAction)
    {
        var fit = fitter.Harmonics;
        Fit(length, fit.Orders + 1, along.Length);
        along.CopyTo(direction);
        direction[farthest] = 0;
        var left = lineOfAction.Norm(direction);
        There = left >= LeastLeft * lineOfAction.Norm(along);
        if (!There)
        {
            return;
        }

        Lanes.Weigh(direction, 1 / left, direction);
        lineOfAction.Project(buffer, length, direction, samples);
        harmonics.AsSpan(0, 2 * orders).Clear();
        for (var a = 0; a < direction.Length; a++)
        {
            Lanes.AddWeighted(fit.Cosine(a)[..orders], direction[a], harmonics.AsSpan(0, orders));
            Lanes.AddWeighted(fit.Sine(a)[..orders], direction[a], harmonics.AsSpan(orders, orders));
        }

        fitter.Even(samples.AsSpan(0, count), Line);
    }

    /// <summary>Takes another's window.</summary>
    public void Keep(LineAside? other)
    {
        There = other is { There: true };
        if (!There)
        {
            return;
        }

        Fit(other!.count, other.orders, other.direction.Length);
        other.Samples.CopyTo(samples);
        other.harmonics.AsSpan(0, 2 * orders).CopyTo(harmonics);
        other.direction.CopyTo(direction, 0);
    }

    private void Fit(int length, int width, int axes)
    {
        (count, orders) = (length, width);
        samples = samples.Length < length ? new double[length] : samples;
        harmonics = harmonics.Length < 2 * width ? new double[2 * width] : harmonics;
        direction = direction.Length == axes ? direction : new double[axes];
    }
}
