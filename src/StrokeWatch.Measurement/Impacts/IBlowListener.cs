namespace StrokeWatch.Measurement.Impacts;

/// <summary>Hears what windows show of blows: the benchmark that grows the forests of <see cref="TailedForest"/>.</summary>
internal interface IBlowListener
{
    /// <summary>Takes the numbers about either end of the path.</summary>
    void Take(ReadOnlySpan<double> end, ReadOnlySpan<double> otherEnd);

    /// <summary>Takes the numbers of what has changed, about either end of the path, and the orders that they come from.</summary>
    void TakeOnset(ReadOnlySpan<double> end, ReadOnlySpan<double> otherEnd, ReadOnlySpan<double> orders);
}
