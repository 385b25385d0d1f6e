using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Session;

/// <summary>How whoever asks for an entry names its parts, so that what is wrong is said in the words that were typed.</summary>
/// <param name="Part">Gives a part's name, out of rear, front, gap, torque and text.</param>
/// <param name="Kind">Gives a kind of entry.</param>
/// <param name="Missing">Says in a sentence that what a kind of entry needs is missing.</param>
internal sealed record BookNaming(Func<string, string> Part, Func<BookEntryKind, string> Kind, Func<BookEntryKind, string> Missing);
