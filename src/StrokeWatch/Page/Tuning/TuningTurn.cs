using StrokeWatch.Session;

namespace StrokeWatch.Page.Tuning;

/// <summary>The question that stands, as the page shows it.</summary>
/// <param name="Number">Belongs to an answer, so that none is taken twice.</param>
/// <param name="Who">Whose session it is.</param>
/// <param name="Step">The question.</param>
/// <param name="Said">What was said in reply to the last answer.</param>
/// <param name="Refused">Why the last answer was none; null where it was one.</param>
internal sealed record TuningTurn(int Number, string? Who, SessionStep Step, IReadOnlyList<string> Said, string? Refused);
