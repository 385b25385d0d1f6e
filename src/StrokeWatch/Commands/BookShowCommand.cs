using StrokeWatch.Outputs.Book;
using StrokeWatch.Reports.Books;

namespace StrokeWatch.Commands;

/// <summary>The command <c>book show</c>.</summary>
internal static class BookShowCommand
{
    /// <summary>Prints the book.</summary>
    public static int Run(string feederFile, string? bookFile, string? json, Surroundings surroundings)
    {
        if (BaselineOutcome.Feeder(feederFile, surroundings) is not { } feeder)
        {
            return CommandLine.Bad;
        }

        var path = bookFile ?? MachineBook.Beside(feederFile);
        if (!File.Exists(path))
        {
            surroundings.Error.WriteLine($"{path}: there is no machine book yet; strokewatch watch, tune and book note begin one");
            return CommandLine.Bad;
        }

        return BookAccess.Say(surroundings, () =>
        {
            using var book = BookAccess.OpenReader(bookFile, feederFile, feeder.Name);
            var summary = BookSummary.Read(book);
            if (json == "-")
            {
                BookJson.Write(surroundings.RawOutput, feeder.Name, summary);
                return CommandLine.Well;
            }

            if (json is not null && !ResultFile.Write("--json", json, stream => BookJson.Write(stream, feeder.Name, summary), surroundings.Error))
            {
                return CommandLine.Bad;
            }

            BookText.Write(surroundings.Output, feeder.Name, summary);
            return CommandLine.Well;
        });
    }
}
