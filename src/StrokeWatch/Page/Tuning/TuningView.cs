using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Page.Tuning;

/// <summary>How tuning stands.</summary>
/// <param name="Impossible">Why the feeder cannot be tuned here; null where it can.</param>
/// <param name="Seconds">How long a measurement takes, in seconds.</param>
/// <param name="Open">The session of the book that is not at its end; null where there is none.</param>
/// <param name="Turn">The question that stands on the page; null where no session is held here.</param>
/// <param name="Measuring">How far the measurement is; null where none is made.</param>
internal sealed record TuningView(string? Impossible, double Seconds, BookSession? Open, TuningTurn? Turn, MeasureProgress? Measuring);
