using StrokeWatch.Outputs.Book;
using StrokeWatch.Reports.Books;
using StrokeWatch.Reports.Records;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Session;
using StrokeWatch.Session.Steps;

namespace StrokeWatch.Commands;

/// <summary>The commands <c>book note</c> and <c>book set</c>.</summary>
internal sealed record BookEntryCommand
{
    private const double WidestGap = 0.1;

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

        var (rear, front) = (Stack("--rear", Rear, out var trouble), Stack("--front", Front, out var other));
        if ((trouble ?? other ?? Missing(kind)) is { } wrong)
        {
            surroundings.Error.WriteLine($"strokewatch book {(kind == BookEntryKind.Note ? "note" : "set")}: {wrong}");
            return CommandLine.Bad;
        }

        if (BaselineOutcome.Feeder(FeederFile, surroundings) is not { } feeder)
        {
            return CommandLine.Bad;
        }

        if (Kind == BookNames.Of(BookEntryKind.LeafSet) && Rear is not null && RearStep.Read(Rear, feeder, out var beyond) is null)
        {
            surroundings.Error.WriteLine($"strokewatch book set: --rear: {beyond}");
            return CommandLine.Bad;
        }

        return BookAccess.Say(surroundings, () =>
        {
            using var book = BookAccess.Open(Book, FeederFile, feeder.Name, surroundings.Time);
            var written = book.Entries.Add(new()
            {
                Utc = surroundings.Time.GetUtcNow(),
                Kind = kind,
                Who = Who,
                Rear = rear,
                Front = front,
                GapMetres = Gap?.Metres,
                TorqueNewtonMetres = Torque,
                Text = Text,
            });
            surroundings.Output.WriteLine($"{book.FilePath}: {feeder.Name}, {BookNames.Of(kind)}: {BookWords.Of(written)} ({RecordDates.Minute(written.Utc)} UTC, {BookWords.When(written)})");
            return CommandLine.Well;
        });
    }

    private static string? Stack(string option, string? text, out string? trouble)
    {
        trouble = null;
        if (text is null)
        {
            return null;
        }

        var stack = StackText.Read(text, out trouble);
        trouble = stack is null ? $"{option}: {trouble}" : null;
        return stack is null ? null : StackText.Write(stack);
    }

    /// <summary>Says what an entry of a kind lacks, or has too much.</summary>
    private string? Missing(BookEntryKind kind)
    {
        (string Option, bool Given, BookEntryKind Of)[] options =
        [
            ("--rear", Rear is not null, BookEntryKind.LeafSet), ("--front", Front is not null, BookEntryKind.LeafSet),
            ("--gap", Gap is not null, BookEntryKind.AirGap), ("--torque-nm", Torque is not null, BookEntryKind.BoltTorque),
        ];
        if (Gap is { } gap && gap.Metres > WidestGap)
        {
            return $"--gap: {gap} is no air gap; one of at most 100 mm was expected";
        }

        return options.FirstOrDefault(option => option.Given && option.Of != kind) is { Option: { } misplaced, Of: var of }
            ? $"{misplaced} belongs to {BookNames.Of(of)}, not to {BookNames.Of(kind)}"
            : kind switch
            {
                BookEntryKind.LeafSet when Rear is null => "leaf-set: which leaves are in the rear is missing; add --rear \"4x4.0 1x3.0\"",
                BookEntryKind.AirGap when Gap is null => "air-gap: how wide it is at rest is missing; add --gap \"2.2 mm\"",
                BookEntryKind.BoltTorque when Torque is null => "bolt-torque: how tight is missing; add --torque-nm 45",
                BookEntryKind.Note when string.IsNullOrWhiteSpace(Text) => "note: there are no words in it",
                _ => null,
            };
    }
}
