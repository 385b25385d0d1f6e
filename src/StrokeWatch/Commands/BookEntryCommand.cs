using StrokeWatch.Outputs.Book;
using StrokeWatch.Reports.Books;
using StrokeWatch.Reports.Records;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Session;

namespace StrokeWatch.Commands;

/// <summary>The commands <c>book note</c> and <c>book set</c>.</summary>
internal sealed record BookEntryCommand
{
    private static readonly BookNaming Options = new(
        part => part == "torque" ? "--torque-nm" : "--" + part,
        BookNames.Of,
        kind => kind switch
        {
            BookEntryKind.LeafSet => "leaf-set: which leaves are in the rear is missing; add --rear \"4x4.0 1x3.0\"",
            BookEntryKind.AirGap => "air-gap: how wide it is at rest is missing; add --gap \"2.2 mm\"",
            BookEntryKind.BoltTorque => "bolt-torque: how tight is missing; add --torque-nm 45",
            _ => "note: there are no words in it",
        });

    /// <summary>Gets the feeder file.</summary>
    public required string FeederFile { get; init; }

    /// <summary>Gets the book's file; null for the usual one.</summary>
    public string? Book { get; init; }

    /// <summary>Gets the word of what it is about.</summary>
    public required string Kind { get; init; }

    /// <summary>Gets the rear stack as it was typed.</summary>
    public string? Rear { get; init; }

    /// <summary>Gets the front stack as it was typed.</summary>
    public string? Front { get; init; }

    /// <summary>Gets the air gap.</summary>
    public Length? Gap { get; init; }

    /// <summary>Gets the torque in N·m.</summary>
    public double? Torque { get; init; }

    /// <summary>Gets the words.</summary>
    public string? Text { get; init; }

    /// <summary>Gets who did it.</summary>
    public string? Who { get; init; }

    /// <summary>Takes the entry down and shows it.</summary>
    public int Run(Surroundings surroundings)
    {
        if (BookAccess.Kind("set", Kind, surroundings) is not { } kind)
        {
            return CommandLine.Bad;
        }

        if (BaselineOutcome.Feeder(FeederFile, surroundings) is not { } feeder)
        {
            return CommandLine.Bad;
        }

        var draft = new BookDraft { Kind = kind, Who = Who, Rear = Rear, Front = Front, Gap = Gap, Torque = Torque, Text = Text };
        if (draft.Entry(feeder, surroundings.Time.GetUtcNow(), Options, out var wrong) is not { } entry)
        {
            surroundings.Error.WriteLine($"strokewatch book {(kind == BookEntryKind.Note ? "note" : "set")}: {wrong}");
            return CommandLine.Bad;
        }

        return BookAccess.Say(surroundings, () =>
        {
            using var book = BookAccess.Open(Book, FeederFile, feeder.Name, surroundings.Time);
            var written = book.Entries.Add(entry);
            surroundings.Output.WriteLine($"{book.FilePath}: {feeder.Name}, {BookNames.Of(kind)}: {BookWords.Of(written)} ({RecordDates.Minute(written.Utc)} UTC, {BookWords.When(written)})");
            return CommandLine.Well;
        });
    }
}
