namespace StrokeWatch.Outputs.Book;

/// <summary>A machine book that cannot be opened, read or written; the message is one line that says which file, what is wrong and what to do.</summary>
public sealed class BookException(string message) : Exception(message);
