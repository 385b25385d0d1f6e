namespace StrokeWatch.Measurement.Impacts;

/// <summary>Hears what windows show of blows: the benchmark that grows <see cref="BlowForest"/>.</summary>
internal interface IBlowListener
{
    /// <summary>Takes the numbers about either end of the path.</summary>
    void Take(ReadOnlySpan<double> end, ReadOnlySpan<double> otherEnd);
}
