using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Commands;

/// <summary>What the commands on the machine book share.</summary>
internal static class BookAccess
{
    /// <summary>Does something with a book; trouble with it is one line.</summary>
    public static int Say(Surroundings surroundings, Func<int> work)
    {
        try
        {
            return work();
        }
        catch (BookException trouble)
        {
            surroundings.Error.WriteLine(trouble.Message);
            return CommandLine.Bad;
        }
    }

    /// <summary>Opens the book of a feeder to write: the one named, else the one beside the feeder file.</summary>
    /// <exception cref="BookException">It cannot be opened, or is another feeder's.</exception>
    public static MachineBook Open(string? named, string feederFile, string feeder, TimeProvider clock)
    {
        var path = named ?? MachineBook.Beside(feederFile);
        var book = MachineBook.Open(path, clock);
        try
        {
            book.Claim(feeder, MachineBook.IsBeside(path, feederFile));
            return book;
        }
        catch
        {
            book.Dispose();
            throw;
        }
    }

    /// <summary>Opens the book of a feeder to read: the one named, else the one beside the feeder file.</summary>
    /// <exception cref="BookException">It cannot be opened, or is another feeder's.</exception>
    public static MachineBook OpenReader(string? named, string feederFile, string feeder)
    {
        var path = named ?? MachineBook.Beside(feederFile);
        var book = MachineBook.OpenReader(path);
        try
        {
            if (!MachineBook.IsBeside(path, feederFile))
            {
                book.Require(feeder);
            }

            return book;
        }
        catch
        {
            book.Dispose();
            throw;
        }
    }

    /// <summary>Gives the kind that a word names; null and one line where it names none.</summary>
    public static BookEntryKind? Kind(string command, string word, Surroundings surroundings)
    {
        if (BookNames.Kind(word) is { } kind)
        {
            return kind;
        }

        surroundings.Error.WriteLine($"strokewatch book {command}: '{word}' is not known; write {string.Join(", ", BookNames.EntryKinds.SkipLast(1))} or {BookNames.EntryKinds.Last()}");
        return null;
    }
}
