namespace StrokeWatch.Benchmarks.Forests;

/// <summary>What a forest is grown on: numbers, and whether they show what the forest is to tell.</summary>
internal sealed class ForestRow
{
    /// <summary>Gets or sets whether it is so.</summary>
    public bool Label { get; set; }

    /// <summary>Gets or sets the numbers.</summary>
    public float[] Features { get; set; } = [];
}
