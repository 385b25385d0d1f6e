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
