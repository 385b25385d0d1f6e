namespace StrokeWatch.Benchmarks.Tuning;

/// <summary>One feeder of the study, tuned both ways.</summary>
/// <param name="SomeFit">Whether any stack of the stock lands in the band on the normal side.</param>
/// <param name="BarelyFits">Whether one does as clamped on average.</param>
/// <param name="Normal">Whether it was found on the normal side.</param>
/// <param name="Told">Whether a coast-down was read with every trial.</param>
/// <param name="Advice">By advice.</param>
/// <param name="Thumb">By the rule of thumb.</param>
internal sealed record TunedFeeder(bool SomeFit, bool BarelyFits, bool Normal, bool Told, TuningSession Advice, TuningSession Thumb);
