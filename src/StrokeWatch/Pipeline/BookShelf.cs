using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Pipeline;

/// <summary>Holds the machine book open from its first use on.</summary>
internal sealed class BookShelf(string? path, TimeProvider time) : IDisposable
{
    private MachineBook? book;

    /// <summary>Gets whether there is a book at all.</summary>
    public bool Kept => path is not null;

    /// <summary>Gives the book.</summary>
    /// <exception cref="BookException">It cannot be opened.</exception>
    public MachineBook Open() => book ??= MachineBook.Open(path ?? throw new InvalidOperationException("No book is kept."), time);

    /// <inheritdoc/>
    public void Dispose() => book?.Dispose();
}
