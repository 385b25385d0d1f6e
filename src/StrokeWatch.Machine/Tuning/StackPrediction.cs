using StrokeWatch.Machine.Feeder;

namespace StrokeWatch.Machine.Tuning;

/// <summary>What a rear stack is expected to do.</summary>
public sealed record StackPrediction
{
    /// <summary>Gets the stack.</summary>
    public required IReadOnlyList<LeafLayer> Rear { get; init; }

    /// <summary>Gets the stroke in metres, peak to peak, as likely exceeded as not.</summary>
    public required double Stroke { get; init; }

    /// <summary>Gets the lower end of the range that holds the reading in 95 of 100 cases, in metres.</summary>
    public required double Low { get; init; }

    /// <summary>Gets the upper end of that range, in metres.</summary>
    public required double High { get; init; }

    /// <summary>Gets the probability that the reading lies in the band.</summary>
    public required double InBand { get; init; }

    /// <summary>Gets the probability that the stroke exceeds the over-stroke limit.</summary>
    public required double OverLimit { get; init; }

    /// <summary>Gets the probability that the feeder then stands on the normal side.</summary>
    public required double Normal { get; init; }

    /// <summary>Gets the frequency of the free decay in Hz.</summary>
    public required double NaturalHz { get; init; }

    /// <summary>Gets natural over drive frequency.</summary>
    public required double TuningRatio { get; init; }

    /// <summary>Gets the stiffness of front and rear stack in N/m.</summary>
    public required double Stiffness { get; init; }

    /// <summary>Gets the highest bending stress of a rear leaf at the clamps, in Pa, at <see cref="Stroke"/>.</summary>
    public required double Stress { get; init; }

    /// <summary>Gets that stress at <see cref="High"/>.</summary>
    public required double StressHigh { get; init; }

    /// <summary>Gets how much the stroke changes, relative, for a tray heavier by a hundredth.</summary>
    public required double ChangePerPercentTray { get; init; }

    /// <summary>Gets the leaves that come out and go in.</summary>
    public required int Handled { get; init; }

    /// <summary>Gets whether it holds leaves of a thickness that the stack before does not.</summary>
    public required bool OtherThickness { get; init; }

    /// <summary>Gets whether the leaves can be laid the same from the middle to both outsides: at most one thickness has an odd count.</summary>
    public required bool Symmetric { get; init; }
}
