using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Pipeline;

/// <summary>Holds the machine book open from its first use on.</summary>
/// <param name="path">The book; null where none is kept.</param>
/// <param name="time">The clock.</param>
/// <param name="feeder">The feeder whose book it must be; null where that is not asked.</param>
/// <param name="renames">Whether the book may change its feeder's name: it lies beside the feeder file.</param>
internal sealed class BookShelf(string? path, TimeProvider time, string? feeder = null, bool renames = false) : IDisposable
{
    private MachineBook? book;

    /// <summary>Gets whether there is a book at all.</summary>
    public bool Kept => path is not null;

    /// <summary>Gives the book.</summary>
    /// <exception cref="BookException">It cannot be opened.</exception>
    public MachineBook Open()
    {
        if (book is not null)
        {
            return book;
        }

        var opened = MachineBook.Open(path ?? throw new InvalidOperationException("No book is kept."), time);
        try
        {
            if (feeder is not null)
            {
                opened.Claim(feeder, renames);
            }

            return book = opened;
        }
        catch
        {
            opened.Dispose();
            throw;
        }
    }

    /// <inheritdoc/>
    public void Dispose() => book?.Dispose();
}
