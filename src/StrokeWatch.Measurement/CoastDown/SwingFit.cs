using StrokeWatch.Measurement.Uncertainty;

namespace StrokeWatch.Measurement.CoastDown;

/// <summary>The decay and turn of the free vibration a cycle of the drive, at the most likely point, with their standard uncertainties from the likelihood's curvature.</summary>
internal sealed class SwingFit
{
    private const double Coverage = 0.9545;

    /// <summary>By how much more the estimate's variance is than the likelihood's curvature says, where noise alone moves it: neighbouring amplitudes share noise, and what the model leaves out is alike from one to the next.</summary>
    private const double NoiseInflation = 3.2 * (1 + 2 * CycleAmplitudes.Shared);

    /// <summary>The same where kicks move it: they are few and of uneven strength. All three set on the benchmark command <c>transients</c>, on seeds other than those it was then judged by.</summary>
    private const double KickInflation = 2.4;

    /// <summary>And more where a dying or growing force is fitted too: it looks much like the free vibration, and that it was asked for was learned from the same amplitudes.</summary>
    private const double ForceInflation = 1.3;

    private SwingFit(SwingModel model, double[] at, double unlikely) => (Model, At, Unlikely) = (model, at, unlikely);

    /// <summary>Gets the model at its most likely point.</summary>
    public SwingModel Model { get; }

    /// <summary>Gets the most likely values of the model's variables.</summary>
    public double[] At { get; }

    /// <summary>Gets minus the logarithm of the likelihood there.</summary>
    public double Unlikely { get; }

    /// <summary>Gets the standard uncertainty of the decay a cycle.</summary>
    public double DecayDeviation { get; private set; }

    /// <summary>Gets the standard uncertainty of the turn a cycle, in radians.</summary>
    public double TurnDeviation { get; private set; }

    /// <summary>Gets the factor from a standard to an expanded uncertainty of 95.45 % coverage, after the degrees of freedom.</summary>
    public double CoverageFactor { get; private set; }

    /// <summary>Fits from a start; null where no likely point or no curvature is found.</summary>
    /// <param name="model">The model.</param>
    /// <param name="decay">Decay a cycle to start from.</param>
    /// <param name="turn">Turn a cycle to start from, in radians.</param>
    public static SwingFit? From(SwingModel model, double decay, double turn)
    {
        SwingFit? best = null;
        foreach (var kicks in (ReadOnlySpan<double>)[-6, 0])
        {
            double[] at = model.HasForce ? [decay, turn, kicks, 0.7] : [decay, turn, kicks];
            double[] steps = model.HasForce ? [0.3 * decay, 0.1 * decay, 2, 0.5] : [0.3 * decay, 0.1 * decay, 2];
            for (var round = 0; round < 2; round++)
            {
                Simplex.Minimise(model.Unlikely, at, steps);
            }

            var unlikely = model.Unlikely(at);
            if (double.IsFinite(unlikely) && (best is null || unlikely < best.Unlikely))
            {
                best = new(model, at, unlikely);
            }
        }

        return best?.Curve() == true ? best : null;
    }

    /// <summary>Takes the uncertainties from the curvature about the most likely point.</summary>
    private bool Curve()
    {
        // The kicks' variance is left where it is: near its lower end the likelihood is flat in it, and the others hardly depend on it.
        int[] which = Model.HasForce ? [0, 1, 3] : [0, 1];
        var size = which.Length;
        var scale = Math.Max(1e-6, At[0]);
        double[] step = [0.01 * scale, 0.01 * scale, 0.02 * (Model.HasForce ? At[3] : 1)];
        for (var i = 0; i < size; i++)
        {
            // So far that the likelihood falls by about a half, where its curvature is meant.
            for (var turn = 0; turn < 24; turn++)
            {
                var fall = 0.5 * (Shifted(which[i], step[i], 0, 0) + Shifted(which[i], -step[i], 0, 0)) - Unlikely;
                if (fall is > 0.15 and < 1.5)
                {
                    break;
                }

                step[i] *= !(fall > 0.15) ? 1.7 : 0.6;
            }
        }

        var matrix = new double[size, size];
        for (var i = 0; i < size; i++)
        {
            matrix[i, i] = (Shifted(which[i], step[i], 0, 0) + Shifted(which[i], -step[i], 0, 0) - 2 * Unlikely) / (step[i] * step[i]);
            for (var j = 0; j < i; j++)
            {
                var mixed = Shifted(which[i], step[i], which[j], step[j]) - Shifted(which[i], step[i], which[j], -step[j])
                    - Shifted(which[i], -step[i], which[j], step[j]) + Shifted(which[i], -step[i], which[j], -step[j]);
                matrix[i, j] = matrix[j, i] = mixed / (4 * step[i] * step[j]);
            }
        }

        var inverse = MathNet.Numerics.LinearAlgebra.Matrix<double>.Build.DenseOfArray(matrix).Inverse();
        var (decay, turn2) = (inverse[0, 0], inverse[1, 1]);
        _ = Model.Unlikely(At);
        if (!(decay > 0 && turn2 > 0 && double.IsFinite(decay) && double.IsFinite(turn2)))
        {
            return false;
        }

        var freedom = Math.Max(1, 2 * (Model.Count - Model.Columns) - Model.Variables);
        var kicks = Math.Exp(At[2]);
        var inflation = (NoiseInflation + KickInflation * kicks) / (1 + kicks) * (Model.HasForce ? ForceInflation : 1);
        (DecayDeviation, TurnDeviation) = (Math.Sqrt(inflation * decay), Math.Sqrt(inflation * turn2));
        CoverageFactor = StudentFactor.For(Coverage, freedom);
        return true;
    }

    private double Shifted(int i, double a, int j, double b)
    {
        Span<double> at = stackalloc double[4];
        At.CopyTo(at);
        at[i] += a;
        at[j] += b;
        return Model.Unlikely(at[..Model.Variables]);
    }
}
