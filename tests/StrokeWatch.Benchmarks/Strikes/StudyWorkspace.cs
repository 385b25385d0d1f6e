using System.Numerics;

namespace StrokeWatch.Benchmarks.Strikes;

/// <summary>The storage and the transforms that runs share, by length.</summary>
internal sealed class StudyWorkspace
{
    private readonly Dictionary<int, (Fft Transform, Complex[] Values)> lengths = [];

    public Fft Transform(int length) => Of(length).Transform;

    public Complex[] Values(int length) => Of(length).Values;

    private (Fft Transform, Complex[] Values) Of(int length)
    {
        if (!lengths.TryGetValue(length, out var found))
        {
            lengths[length] = found = (new(length), new Complex[length]);
        }

        return found;
    }
}
