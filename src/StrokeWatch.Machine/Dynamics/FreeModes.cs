using System.Numerics;
using MathNet.Numerics.LinearAlgebra;

namespace StrokeWatch.Machine.Dynamics;

/// <summary>The free decays of tray, body and mounts together.</summary>
public static class FreeModes
{
    /// <summary>Gives the mode that a coast-down shows, the highest: its damped frequency in Hz and its damping ratio, from the eigenvalues of the motion.</summary>
    public static (double DampedHz, double DampingRatio) Highest(MechanicalParameters parameters)
    {
        double m = parameters.TrayKilograms, n = parameters.BodyKilograms, k = parameters.Stiffness, c = parameters.Damping;
        var matrix = Matrix<double>.Build.DenseOfArray(new[,]
        {
            { 0, 1, 0, 0 },
            { -k / m, -c / m, k / m, c / m },
            { 0, 0, 0, 1 },
            { k / n, c / n, -(k + parameters.MountStiffness) / n, -(c + parameters.MountDamping) / n },
        });
        var fastest = matrix.Evd().EigenValues.MaxBy(value => value.Imaginary);
        return (fastest.Imaginary / (2 * Math.PI), -fastest.Real / Complex.Abs(fastest));
    }
}
